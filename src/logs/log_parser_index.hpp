#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

#include "metrology/widest_vectors.hpp"

namespace hailwright::detail {

/// Where in a piece of a log its cells end, found before any cell is read: many bytes at a time,
/// and without waiting for the length of one cell to know where the next begins.
struct PieceIndex {
  /// Offsets in rising order. The memory behind them is kept, for filling it would cost more than
  /// its use.
  struct Offsets {
    std::vector<std::uint32_t> at;
    std::size_t size = 0;
    [[nodiscard]] const std::uint32_t* begin() const { return at.data(); }
    [[nodiscard]] const std::uint32_t* end() const { return at.data() + size; }
  };
  /// Of separators and line breaks. Before the first stands `before_all`, the end of "the line
  /// before", so that every cell begins one behind an end.
  Offsets ends;
  Offsets breaks;  ///< of line breaks alone
  /// Of bytes that a plain line has not: quotes, control characters, what is not ASCII, a carriage
  /// return that no line feed follows. Closed by `beyond_all`.
  std::vector<std::uint32_t> odd;

  static constexpr std::uint32_t before_all = 0xFFFFFFFFU;
  static constexpr std::uint32_t beyond_all = 0xFFFFFFFFU;
};

/// Contract: the piece is shorter than 2^31 bytes. Reuses the memory of `index`.
void index_piece(std::string_view piece, char separator, PieceIndex& index);

/// The same by these vector instructions, which the processor must have.
void index_piece_with(Vectors vectors, std::string_view piece, char separator, PieceIndex& index);

/// The same byte by byte, for processors without vectors; tests hold the two together.
void index_piece_plainly(std::string_view piece, char separator, PieceIndex& index);

}  // namespace hailwright::detail
