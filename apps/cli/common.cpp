// Dates, errors, and files that are written whole or not at all.
#include "cli/common.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <cstdio>
#include <cstring>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "cli/exit_codes.h"

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

int refuse(const base::Error& error, std::ostream& err) {
  err << "kerfdraft: " << error.text() << '\n';
  return kBadInput;
}

Result<void> writeWhole(const std::string& path, std::string_view text) {
  const auto failed = [&](const char* what) {
    return fail(ErrorCode::Io, fmt::format("cannot {} this file: {}", what, std::strerror(errno)), path);
  };
  // A device or a pipe cannot be renamed over; it is written straight.
  std::error_code unknown;
  const auto kind = std::filesystem::status(path, unknown).type();
  if (kind == std::filesystem::file_type::directory) {
    return fail(ErrorCode::Io, "is a folder, not a file that can be written", path);
  }
  if (kind != std::filesystem::file_type::not_found && kind != std::filesystem::file_type::none &&
      kind != std::filesystem::file_type::regular) {
    std::ofstream stream(path, std::ios::binary);
    stream.write(text.data(), static_cast<std::streamsize>(text.size()));
    stream.flush();
    return stream ? Result<void>() : failed("write");
  }
  const std::string beside = fmt::format("{}.{}.part", path, ::getpid());
  const int file = ::open(beside.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
  if (file < 0) {
    return failed("create");
  }
  std::string_view rest = text;
  while (!rest.empty()) {
    const ssize_t written = ::write(file, rest.data(), rest.size());
    if (written < 0 && errno == EINTR) {
      continue;
    }
    if (written < 0) {
      const auto failure = failed("write");
      ::close(file);
      ::unlink(beside.c_str());
      return failure;
    }
    rest.remove_prefix(static_cast<std::size_t>(written));
  }
  const bool flushed = ::fsync(file) == 0 || errno == EINVAL;
  if (::close(file) != 0 || !flushed || std::rename(beside.c_str(), path.c_str()) != 0) {
    const auto failure = failed("finish");
    ::unlink(beside.c_str());
    return failure;
  }
  return {};
}

Result<std::string> readWhole(const std::string& path) {
  constexpr std::uintmax_t kMostBytes = 64U << 20U;
  std::error_code problem;
  if (std::filesystem::is_directory(path, problem)) {
    return fail(ErrorCode::Io, "is a folder, not a file", path);
  }
  std::ifstream stream(path, std::ios::binary);
  if (!stream) {
    return fail(ErrorCode::Io, fmt::format("cannot open this file: {}", std::strerror(errno)), path);
  }
  std::string text;
  std::array<char, 1U << 16U> block{};
  while (stream) {
    stream.read(block.data(), block.size());
    text.append(block.data(), static_cast<std::size_t>(stream.gcount()));
    if (text.size() > kMostBytes) {
      return fail(ErrorCode::Io, "is larger than 64 MB, which no project is", path);
    }
  }
  return text;
}

int deliver(std::string_view text, const Common& common, int code, std::ostream& out, std::ostream& err) {
  if (common.output.empty()) {
    out << text;
    out.flush();
    if (!out) {
      return refuse({ErrorCode::Io, "the output could not be written completely", "standard output"}, err);
    }
    return code;
  }
  if (const Result<void> written = writeWhole(common.output, text); !written) {
    return refuse(written.error(), err);
  }
  return code;
}

}  // namespace kerfdraft::cli
