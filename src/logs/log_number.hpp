#pragma once

#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <string_view>

#if defined(__SSE2__) && defined(__GNUC__)
#include <emmintrin.h>
#endif

#include "metrology/widest_vectors.hpp"

namespace hailwright::detail {

/// Powers of ten that a double holds exactly.
inline constexpr std::array<double, 23> exact_powers_of_ten{
    1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,  1e8,  1e9,  1e10, 1e11,
    1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};

/// Reads a whole cell as a decimal number: sign, digits with one decimal mark, exponent of ten; at
/// least one digit. No blanks, no grouping, no nan, inf or hex. Rounded to the nearest double.
/// False, and `value` as it was, for anything else and for what no double can hold.
bool read_log_number(std::string_view cell, char decimal, double& value);

/// So many bytes that end with the cell must be readable for `ShortNumbers`.
inline constexpr std::ptrdiff_t readable_for_number = 16;

/// The cells of a column over some rows, by the index of a piece: a cell begins behind the end of
/// the one before it.
struct CellColumn {
  const char* text = nullptr;           ///< of the piece
  const std::uint32_t* ends = nullptr;  ///< at the end of the first row's cell
  std::size_t cells = 1;                ///< of a row
  std::size_t rows = 0;
  bool closes_rows = false;  ///< a carriage return may stand behind the cells

  [[nodiscard]] std::string_view cell(std::size_t row) const {
    const std::uint32_t* const end = ends + row * cells;
    const std::uint32_t begin = end[-1] + 1U;
    const bool returns = closes_rows && text[*end - 1U] == '\r' && *end > begin;
    return {text + begin, *end - begin - (returns ? 1U : 0U)};
  }
};

#if defined(__SSE2__) && defined(__GNUC__)

// SSE2 belongs to every x86-64. Written with the compiler's own vectors where those do.
using Bytes16 = unsigned char __attribute__((vector_size(16)));
using Words8 = short __attribute__((vector_size(16)));

/// A bit for each byte: its highest.
template <class Bytes>
unsigned high_bits(Bytes bytes) {
  return static_cast<unsigned>(_mm_movemask_epi8(std::bit_cast<__m128i>(bytes)));
}

/// Which of 16 characters are digits before and behind a decimal mark in their midst, and the power
/// of ten to divide by.
struct MarkPlace {
  alignas(16) std::array<unsigned char, 16> before{};  ///< where they are after moving up by one
  alignas(16) std::array<unsigned char, 16> behind{};
  double power = 1.0;
};

/// By the mark's place; the last is for numbers without one.
inline constexpr std::array<MarkPlace, 17> mark_places = [] {
  std::array<MarkPlace, 17> places{};
  for (std::size_t mark = 0; mark <= 16; ++mark) {
    for (std::size_t i = 0; i < 16; ++i) {
      places[mark].before[i] = mark < 16 && i <= mark ? 0xFF : 0;
      places[mark].behind[i] = mark == 16 || i > mark ? 0xFF : 0;
    }
    places[mark].power = mark < 16 ? exact_powers_of_ten[15 - mark] : 1.0;
  }
  return places;
}();

struct ByteMask {
  alignas(16) std::array<unsigned char, 16> bytes{};
};

/// The last so many of 16 bytes.
inline constexpr std::array<ByteMask, 17> last_bytes = [] {
  std::array<ByteMask, 17> masks{};
  for (std::size_t count = 0; count <= 16; ++count) {
    for (std::size_t i = 0; i < 16; ++i)
      masks[count].bytes[i] = i + count >= 16 ? 0xFF : 0;
  }
  return masks;
}();

inline Bytes16 sixteen_bytes(const char* at) {
  Bytes16 bytes;
  std::memcpy(&bytes, at, sizeof bytes);
  return bytes;
}

inline Bytes16 sixteen_bytes(const std::array<unsigned char, 16>& array) {
  return std::bit_cast<Bytes16>(array);
}

/// The number that 16 digits make, each as its value in a byte: neighbours are joined to pairs,
/// fours, eights and all.
inline std::uint64_t join_digits(Bytes16 digits) {
  const auto words = std::bit_cast<Words8>(digits);
  const Words8 pairs = (words & 0xFF) * 10 + (words >> 8);
  constexpr Words8 hundreds{100, 1, 100, 1, 100, 1, 100, 1};
  const __m128i fours =
      _mm_madd_epi16(std::bit_cast<__m128i>(pairs), std::bit_cast<__m128i>(hundreds));
  constexpr Words8 myriads{10000, 1, 10000, 1, 10000, 1, 10000, 1};
  const __m128i eights =
      _mm_madd_epi16(_mm_packs_epi32(fours, fours), std::bit_cast<__m128i>(myriads));
  std::uint64_t both = 0;
  std::memcpy(&both, &eights, sizeof both);
  return (both & 0xFFFFFFFFU) * 100000000U + (both >> 32U);
}

/// Reads what nearly every cell holds, 15 characters or fewer behind a sign: digits, with or
/// without a mark. At most 15 digits and a power of ten up to 1e14 are exact, so that one division
/// rounds once and correctly.
class ShortNumbers {
public:
  explicit ShortNumbers(char decimal)
      : mark_(Bytes16{} + static_cast<unsigned char>(decimal - '0')) {}

  /// False for anything else; then `read_log_number` decides. Contract: not empty;
  /// `readable_for_number` bytes that end with the cell can be read.
  bool read(std::string_view cell, double& value) const {
    const char* const end = cell.data() + cell.size();
    const bool minus = cell.front() == '-';
    const std::size_t size = cell.size() - (minus ? 1U : 0U);
    constexpr std::size_t longest = 15;
    if (size - 1 >= longest) return false;
    const Bytes16 characters = (sixteen_bytes(end - 16) - static_cast<unsigned char>('0')) &
                               sixteen_bytes(last_bytes[size].bytes);
    constexpr unsigned no_mark = 0x10000;
    const unsigned marks = high_bits(characters == mark_) | no_mark;
    const MarkPlace& place = mark_places[static_cast<unsigned>(std::countr_zero(marks))];
    // One byte up: what stands before the mark closes the gap that the mark leaves.
    const Bytes16 moved = __builtin_shufflevector(characters, Bytes16{}, 16, 0, 1, 2, 3, 4, 5, 6, 7,
                                                  8, 9, 10, 11, 12, 13, 14);
    const Bytes16 digits =
        (moved & sixteen_bytes(place.before)) | (characters & sixteen_bytes(place.behind));
    // Characters below 0 and far above 9 have the highest bit themselves, the rest by the sum.
    if (high_bits(digits | (digits + static_cast<unsigned char>(0x7F - 9))) != 0) return false;
    if (size == 1 && marks != no_mark) return false;
    const double number =
        static_cast<double>(static_cast<std::int64_t>(join_digits(digits))) / place.power;
    value = minus ? -number : number;
    return true;
  }

  /// Reads a column; blank cells become NaN. False when a cell must be read another way; then what
  /// stands in `into` means nothing. Contract: a row at least; of all cells `readable_for_number`
  /// bytes can be read.
  bool read(const CellColumn& column, double* into) const;
  /// The same by these vector instructions, which the processor must have.
  bool read_with(Vectors vectors, const CellColumn& column, double* into) const;

private:
  bool read_one_by_one(const CellColumn& column, double* into) const;

  Bytes16 mark_;
};

#else

/// Without vectors `read_log_number` reads everything.
class ShortNumbers {
public:
  explicit ShortNumbers(char) {}
  bool read(std::string_view, double&) const { return false; }
  bool read(const CellColumn&, double*) const { return false; }
  bool read_with(Vectors, const CellColumn&, double*) const { return false; }
};

#endif

}  // namespace hailwright::detail
