#include "logs/log_pieces.hpp"

#include <algorithm>
#include <cstring>

#include "hailwright/core/contract.hpp"
#include "logs/log_parser_slow.hpp"

namespace hailwright::detail {

namespace {

constexpr std::size_t kept_of_long_line = longest_line + 1;
static_assert(kept_of_long_line < piece_bytes / 2, "a cut line leaves room to read on");

}  // namespace

bool LogPieces::next(LogPiece& into) {
  into.room.resize(piece_bytes);
  into.at_file_begin = !begun_;
  into.last = false;
  if (begun_ && ended_ && carried_.empty()) return false;
  begun_ = true;
  std::copy(carried_.begin(), carried_.end(), into.room.begin());
  const std::size_t filled = fill(into, carried_.size());
  carried_.clear();
  into.bytes = static_cast<std::int64_t>(filled);
  if (ended_) {
    end(into, filled);
    return into.size > 0 || into.at_file_begin;
  }
  cut_at_last_break(into, filled);
  return !endless_;
}

/// Fills the room from there on as far as the file goes.
std::size_t LogPieces::fill(LogPiece& piece, std::size_t from) {
  while (!ended_ && from < piece_bytes) {
    const std::size_t read = source_.read(piece.room.data() + from, piece_bytes - from);
    expects(read <= piece_bytes - from, "a source gives no more bytes than it was asked for");
    from += read;
    if (read > 0) continue;
    ended_ = true;
    if (source_.problem) problem_ = source_.problem();
  }
  return from;
}

void LogPieces::end(LogPiece& piece, std::size_t filled) {
  piece.last = true;
  const std::string_view text(piece.room.data(), filled);
  piece.size = problem_.empty() ? filled : text.rfind('\n') + 1;
}

void LogPieces::cut_at_last_break(LogPiece& piece, std::size_t filled) {
  const std::string_view text(piece.room.data(), filled);
  piece.size = text.rfind('\n') + 1;
  if (piece.size == 0) return cut_long_line(piece);
  carried_.assign(piece.room.begin() + static_cast<std::ptrdiff_t>(piece.size),
                  piece.room.begin() + static_cast<std::ptrdiff_t>(filled));
  piece.bytes = static_cast<std::int64_t>(piece.size);
}

/// Reads on to the end of a line that fills a piece, and drops all but its beginning.
void LogPieces::cut_long_line(LogPiece& piece) {
  piece.size = kept_of_long_line;
  for (;;) {
    const std::size_t filled = fill(piece, kept_of_long_line);
    const char* const begin = piece.room.data() + kept_of_long_line;
    const char* const end = piece.room.data() + filled;
    const char* const line_break = std::find(begin, end, '\n');
    piece.bytes += line_break - begin;
    if (line_break != end) {
      piece.bytes += 1;
      carried_.assign(line_break + 1, end);
      piece.room[piece.size++] = '\n';
      return;
    }
    endless_ = piece.bytes >= endless_line;
    if (endless_) ended_ = true;
    if (ended_) {
      piece.last = true;
      return;
    }
  }
}

}  // namespace hailwright::detail
