#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/source.hpp"

namespace hailwright {

enum class Severity { note, warning, error };

/// A second place that belongs to a message: where a key was first given, which row disagrees.
struct Related {
  SourceSpan where;
  std::string message;
};

/// One message about something a user wrote: where, what was found, what was expected, the mend.
struct Diagnostic {
  Severity severity = Severity::error;
  std::string_view code;  ///< as in docs/errors.md; shown in machine output only
  SourceSpan where;
  std::string message;             ///< lower case, no full stop at the end
  std::vector<std::string> hints;  ///< each says what to write instead
  std::vector<Related> related;
};

/// All messages of a run, in the order in which they were found.
class Diagnostics {
public:
  Diagnostic& error(std::string_view code, SourceSpan where, std::string message,
                    std::vector<std::string> hints = {});
  Diagnostic& warning(std::string_view code, SourceSpan where, std::string message,
                      std::vector<std::string> hints = {});
  void add(Diagnostic diagnostic) { items_.push_back(std::move(diagnostic)); }
  void append(Diagnostics other);
  [[nodiscard]] bool has_errors() const;
  [[nodiscard]] bool empty() const { return items_.empty(); }
  [[nodiscard]] const std::vector<Diagnostic>& items() const { return items_; }

private:
  std::vector<Diagnostic> items_;
};

/// What a reader gives back: a value unless there was an error, and every message either way.
template <class T>
struct Checked {
  std::optional<T> value;
  Diagnostics notes;
};

/// The messages as text, sorted by file and line:
/// `file:line:column: error: message`, the line, a caret run, `help:` lines, second places. A
/// message that says the same of the same place is said once.
std::string render_diagnostics(const Diagnostics& notes, const SourceSet& sources);

/// The nearest of `known` to `word`, if it is near enough to be a likely slip of the pen.
std::optional<std::string> nearest_word(std::string_view word,
                                        const std::vector<std::string>& known);

}  // namespace hailwright
