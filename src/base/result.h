// Errors in three kinds: a bug throws InternalError; bad input is a Result with a sentence; a network
// without a solution is a value of its own room. This file holds the first two.
#pragma once

#include <stdexcept>
#include <string>
#include <tl/expected.hpp>

namespace kerfdraft::base {

enum class ErrorCode {
  Parse,        ///< text that is not what it should be
  Version,      ///< written by a newer version
  Reference,    ///< an id that is missing or stands twice
  Range,        ///< a number outside what can be
  Conflict,     ///< entries that contradict each other
  Io,           ///< file system
  Unsupported,  ///< understood, but not handled
};

/// Bad input, said to a person. `message` is a whole sentence naming value and unit; `where` is the place:
/// a JSON pointer, "file:line", an option, or an element's label.
struct Error {
  ErrorCode code = ErrorCode::Parse;
  std::string message;
  std::string where;

  /// "where: message", or the message alone where no place is known.
  std::string text() const { return where.empty() ? message : where + ": " + message; }
};

template <class T>
using Result = tl::expected<T, Error>;

using Failure = tl::unexpected<Error>;

/// Shorthand for `return fail(ErrorCode::Range, "…", "/machines/0/ports/1/bore");`
inline Failure fail(ErrorCode code, std::string message, std::string where = {}) {
  return Failure(Error{code, std::move(message), std::move(where)});
}

/// A bug of this program, never the user's fault. Caught only at main, at the event door and at the worker.
class InternalError : public std::logic_error {
 public:
  using std::logic_error::logic_error;
};

/// Always on. Throws InternalError with `what` when `condition` is false.
inline void check(bool condition, const char* what) {
  if (!condition) {
    throw InternalError(what);
  }
}

}  // namespace kerfdraft::base
