#include "hailwright/core/diagnostic.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <numeric>
#include <set>
#include <tuple>

#include "core/utf8.hpp"

namespace hailwright {

Diagnostic& Diagnostics::error(std::string_view code, SourceSpan where, std::string message,
                               std::vector<std::string> hints) {
  items_.push_back({Severity::error, code, where, std::move(message), std::move(hints), {}});
  return items_.back();
}

Diagnostic& Diagnostics::warning(std::string_view code, SourceSpan where, std::string message,
                                 std::vector<std::string> hints) {
  items_.push_back({Severity::warning, code, where, std::move(message), std::move(hints), {}});
  return items_.back();
}

void Diagnostics::append(Diagnostics other) {
  std::move(other.items_.begin(), other.items_.end(), std::back_inserter(items_));
}

bool Diagnostics::has_errors() const {
  return std::any_of(items_.begin(), items_.end(),
                     [](const Diagnostic& d) { return d.severity == Severity::error; });
}

namespace {

std::string_view severity_word(Severity severity) {
  switch (severity) {
  case Severity::note:
    return "note";
  case Severity::warning:
    return "warning";
  case Severity::error:
    return "error";
  }
  return "error";
}

/// Names in files come from strangers: in one line, nothing that steers, and not without end.
std::string told(const std::string& words) {
  constexpr std::size_t longest = 1000;
  if (words.size() <= longest) return detail::without_steering(words);
  return detail::without_steering(words.substr(0, longest)) + "...";
}

std::string place(const SourceSpan& where, const SourceSet& sources) {
  if (where.file == 0) return "hailwright";
  std::string name = told(sources.name(where.file));
  if (where.line == 0) return name;
  return fmt::format("{}:{}:{}", name, where.line, where.column);
}

/// The bytes of so many characters; all of a text that has no more.
std::size_t bytes_of(std::string_view text, int characters) {
  std::size_t at = 0;
  for (int count = 0; at < text.size(); ++at) {
    const bool begins = (static_cast<unsigned char>(text[at]) & 0xC0U) != 0x80U;
    if (begins && ++count > characters) break;
  }
  return at;
}

/// A window of at most `width` characters of a line that keeps the marked part in view.
struct Excerpt {
  std::string text;
  int column;
};

Excerpt excerpt_around(std::string_view line, int column) {
  constexpr int width = 96;
  constexpr int lead = 60;
  const bool moved = column > lead && bytes_of(line, width) < line.size();
  const int first = moved ? column - lead : 0;
  line.remove_prefix(bytes_of(line, first));
  const std::string_view window = line.substr(0, bytes_of(line, width));
  const std::size_t marked = bytes_of(window, column - first - 1);
  const std::string before =
      (moved ? "..." : "") + detail::without_steering(window.substr(0, marked));
  return {before + detail::without_steering(window.substr(marked)) +
              (window.size() < line.size() ? "..." : ""),
          1 + static_cast<int>(count_characters(before))};
}

void append_excerpt(std::string& out, const SourceSpan& where, const SourceSet& sources) {
  if (where.file == 0 || where.line == 0) return;
  const std::string_view line = sources.line(where.file, where.line);
  if (line.empty() && sources.text(where.file).empty()) return;  // nothing of the file is kept
  const auto [text, column] = excerpt_around(line, where.column);
  const int room = std::max(1, static_cast<int>(count_characters(text)) - column + 1);
  const int length = std::clamp(where.length, 1, room);
  out += fmt::format("  {}\n  {}{}\n", text, std::string(static_cast<std::size_t>(column - 1), ' '),
                     std::string(static_cast<std::size_t>(length), '^'));
}

}  // namespace

std::string render_diagnostics(const Diagnostics& notes, const SourceSet& sources) {
  std::vector<std::size_t> order(notes.items().size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const SourceSpan& x = notes.items()[a].where;
    const SourceSpan& y = notes.items()[b].where;
    return std::tie(x.file, x.line, x.column) < std::tie(y.file, y.line, y.column);
  });
  constexpr std::size_t most_said = 500;  // more is not read by a person [ours]
  std::string out;
  std::set<std::string> said;  // two records that share a file would repeat its messages
  std::size_t unsaid = 0;
  for (const std::size_t i : order) {
    const Diagnostic& d = notes.items()[i];
    if (said.size() == most_said) {
      ++unsaid;
      continue;
    }
    if (!said.insert(place(d.where, sources) + d.message).second) continue;
    out += fmt::format("{}: {}: {}\n", place(d.where, sources), severity_word(d.severity),
                       told(d.message));
    append_excerpt(out, d.where, sources);
    for (const std::string& hint : d.hints)
      out += fmt::format("  help: {}\n", told(hint));
    for (const Related& r : d.related) {
      out += fmt::format("{}: note: {}\n", place(r.where, sources), told(r.message));
      append_excerpt(out, r.where, sources);
    }
  }
  if (unsaid > 0) out += fmt::format("hailwright: {} more messages: mend these first\n", unsaid);
  return out;
}

namespace {

/// Optimal string alignment distance: insert, delete, replace, swap of neighbours.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i)
    d[i][0] = i;
  for (std::size_t j = 0; j <= b.size(); ++j)
    d[0][j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t cost = a[i - 1] == b[j - 1] ? 0 : 1;
      d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + cost});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
      }
    }
  }
  return d[a.size()][b.size()];
}

}  // namespace

std::optional<std::string> nearest_word(std::string_view word,
                                        const std::vector<std::string>& known) {
  constexpr std::size_t longest = 64;
  if (word.empty() || word.size() > longest) return std::nullopt;
  std::optional<std::string> best;
  std::size_t best_distance = std::max<std::size_t>(1, word.size() / 3) + 1;
  for (const std::string& candidate : known) {
    const std::size_t longer = std::max(word.size(), candidate.size());
    const std::size_t shorter = std::min(word.size(), candidate.size());
    if (longer - shorter >= best_distance) continue;  // so many letters at least are too many
    const std::size_t distance = edit_distance(word, candidate);
    if (distance < best_distance) {
      best_distance = distance;
      best = candidate;
    }
  }
  return best;
}

}  // namespace hailwright
