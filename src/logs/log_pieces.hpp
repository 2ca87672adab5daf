#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/logs/log_format.hpp"

namespace hailwright::detail {

/// Size of a piece before it is cut at its last line break [bytes].
inline constexpr std::size_t piece_bytes = std::size_t{256} << 10U;

/// A line of which so much was read is none: reading stops there [bytes].
inline constexpr std::int64_t endless_line = std::int64_t{64} << 20U;

/// Whole lines of a file; its last piece may end without a line break. A line that is longer than a
/// piece is cut short, but stays longer than any line that is read.
struct LogPiece {
  std::vector<char> room;
  std::size_t size = 0;
  std::int64_t bytes = 0;  ///< of the file that it stands for
  bool at_file_begin = false;
  bool last = false;  ///< the file ends with it

  [[nodiscard]] std::string_view text() const { return {room.data(), size}; }
};

/// Cuts a file into pieces, the same ones whatever way its bytes come in.
class LogPieces {
public:
  explicit LogPieces(LogBytes bytes) : source_(std::move(bytes)) {}

  /// The next piece; false behind the last. The first is given also of an empty file. What stands
  /// behind the last line break of a file that cannot be read further is not given, nor an endless
  /// line.
  bool next(LogPiece& into);
  /// Empty unless reading failed.
  [[nodiscard]] const std::string& problem() const { return problem_; }
  /// Whether reading stopped in a line without an end.
  [[nodiscard]] bool endless() const { return endless_; }

private:
  std::size_t fill(LogPiece& piece, std::size_t from);
  void cut_at_last_break(LogPiece& piece, std::size_t filled);
  void cut_long_line(LogPiece& piece);
  void end(LogPiece& piece, std::size_t filled);

  LogBytes source_;
  std::vector<char> carried_;  ///< read, but behind the last line break
  bool begun_ = false;
  bool ended_ = false;
  bool endless_ = false;
  std::string problem_;
};

}  // namespace hailwright::detail
