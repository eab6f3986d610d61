# Text files as a C++ source, so that the program carries its tables with it.
#
# As a module: kerfdraft_embed(OUT_VAR NAMESPACE file ...) adds a command that writes one source with the text of
# every file and puts its path into OUT_VAR. The source defines
#   std::span<const EmbeddedFile> NAMESPACE::embeddedFiles()
# for the header embedded.h of that room.
# As a script (cmake -DOUT=... -DNAMESPACE=... -DHEADER=... "-DFILES=a;b" -P EmbedData.cmake) it writes that source.

if(CMAKE_SCRIPT_MODE_FILE)
  set(entries "")
  foreach(path IN LISTS FILES)
    get_filename_component(name "${path}" NAME)
    # Read as bytes: file(READ) as text would drop some of them, and a list would split at semicolons.
    file(READ "${path}" bytes HEX)
    string(LENGTH "${bytes}" digits)
    math(EXPR size "${digits} / 2")
    if(size EQUAL 0)
      message(FATAL_ERROR "${path} is empty")
    endif()
    string(REGEX REPLACE "([0-9a-f][0-9a-f])" "\\\\x\\1" escaped "${bytes}")
    # One literal a chunk keeps the lines short; a chunk ends on a whole escape.
    string(REGEX REPLACE "((\\\\x[0-9a-f][0-9a-f])(\\\\x[0-9a-f][0-9a-f])?(\\\\x[0-9a-f][0-9a-f])?(\\\\x[0-9a-f][0-9a-f])?(\\\\x[0-9a-f][0-9a-f])?(\\\\x[0-9a-f][0-9a-f])?(\\\\x[0-9a-f][0-9a-f])?(\\\\x[0-9a-f][0-9a-f])?)" "    \"\\1\"\n" literals "${escaped}")
    string(APPEND entries "    {\"${name}\", std::string_view(\n${literals}    , ${size})},\n")
  endforeach()
  file(WRITE "${OUT}"
    "// Written by cmake/EmbedData.cmake from the data folder: do not edit.\n"
    "#include \"${HEADER}\"\n\n"
    "#include <array>\n\n"
    "namespace ${NAMESPACE} {\nnamespace {\n\n"
    "constexpr auto kFiles = std::to_array<EmbeddedFile>({\n${entries}});\n\n"
    "}  // namespace\n\n"
    "std::span<const EmbeddedFile> embeddedFiles() {\n  return kFiles;\n}\n\n"
    "}  // namespace ${NAMESPACE}\n")
  return()
endif()

set(KERFDRAFT_EMBED_SCRIPT ${CMAKE_CURRENT_LIST_FILE})

function(kerfdraft_embed out_var namespace header)
  set(source ${CMAKE_CURRENT_BINARY_DIR}/embedded_data.cpp)
  add_custom_command(
    OUTPUT ${source}
    COMMAND ${CMAKE_COMMAND} -DOUT=${source} -DNAMESPACE=${namespace} -DHEADER=${header} "-DFILES=${ARGN}"
            -P ${KERFDRAFT_EMBED_SCRIPT}
    DEPENDS ${ARGN} ${KERFDRAFT_EMBED_SCRIPT}
    COMMENT "Embedding the data tables" VERBATIM)
  set(${out_var} ${source} PARENT_SCOPE)
endfunction()
