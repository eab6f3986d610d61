// Dates, errors, and files that are written whole or not at all.
#include "cli/common.h"

#include <fmt/format.h>

#include <chrono>
#include <ctime>
#include <filesystem>
#include <fstream>

#include "cli/exit_codes.h"
#include "files/save.h"

namespace kerfdraft::cli {

using base::ErrorCode;
using base::fail;
using base::Result;

Result<std::string> checkedDate(std::string_view text, std::string_view where) {
  const bool shaped = text.size() == 10 && text[4] == '-' && text[7] == '-' &&
                      text.find_first_not_of("0123456789-") == std::string_view::npos;
  if (shaped) {
    const auto number = [&](std::size_t at, std::size_t count) {
      int value = 0;
      for (const char c : text.substr(at, count)) {
        value = c == '-' ? 100000 : value * 10 + (c - '0');
      }
      return value;
    };
    const std::chrono::year_month_day day{std::chrono::year(number(0, 4)),
                                          std::chrono::month(static_cast<unsigned>(number(5, 2))),
                                          std::chrono::day(static_cast<unsigned>(number(8, 2)))};
    if (day.ok()) {
      return std::string(text);
    }
  }
  return fail(ErrorCode::Parse,
              fmt::format("\"{}\" is not a day; a date is written like 2026-01-15", text.substr(0, 40)),
              std::string(where));
}

std::string today() {
  const std::time_t now = std::time(nullptr);
  std::tm parts{};
  localtime_r(&now, &parts);
  return fmt::format("{:04}-{:02}-{:02}", parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday);
}

std::string dayLine(const Common& common) {
  return common.date.empty() ? std::string() : common.date + '\n';
}

int refuse(const base::Error& error, std::ostream& err) {
  err << "kerfdraft: " << error.text() << '\n';
  return kBadInput;
}

namespace {

/// A device or a pipe cannot be replaced; it is written straight.
Result<void> writeInto(const std::string& path, std::string_view text) {
  std::ofstream stream(path, std::ios::binary);
  stream.write(text.data(), static_cast<std::streamsize>(text.size()));
  stream.flush();
  if (!stream) {
    return fail(ErrorCode::Io, "cannot be written", path);
  }
  return {};
}

Result<void> writeFile(const std::string& path, std::string_view text) {
  std::error_code problem;
  const auto kind = std::filesystem::status(path, problem).type();
  using enum std::filesystem::file_type;
  if (kind == directory) {
    return fail(ErrorCode::Io, "is a folder, not a file that can be written", path);
  }
  return kind == character || kind == fifo || kind == block
             ? writeInto(path, text)
             : files::replaceFile(path, text, files::Backup::None);
}

}  // namespace

int deliver(std::string_view text, const Common& common, int code, std::ostream& out, std::ostream& err) {
  if (common.output.empty()) {
    out << text;
    out.flush();
    if (!out) {
      return refuse({ErrorCode::Io, "the output could not be written completely", "standard output"}, err);
    }
    return code;
  }
  if (const Result<void> written = writeFile(common.output, text); !written) {
    return refuse(written.error(), err);
  }
  return code;
}

}  // namespace kerfdraft::cli
