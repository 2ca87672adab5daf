#include "logs/log_number.hpp"

#include <algorithm>
#include <charconv>
#include <limits>
#include <string>
#include <system_error>

#if defined(__SSE2__) && defined(__GNUC__)
#include <immintrin.h>
#endif

namespace hailwright::detail {

namespace {

constexpr bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// A number taken apart. Digits beyond the 19 that a 64-bit number holds are not in `digits`.
struct Parts {
  std::uint64_t digits = 0;
  int significant = 0;  ///< without leading zeros
  int decimals = 0;
  bool has_exponent = false;
  bool minus = false;
};

bool take_digit(char c, Parts& parts) {
  if (!is_digit(c)) return false;
  constexpr int most_held = 19;
  if (parts.significant > 0 || c != '0') ++parts.significant;
  if (parts.significant <= most_held) {
    parts.digits = parts.digits * 10 + static_cast<std::uint64_t>(c - '0');
  }
  return true;
}

/// Digits to the end of the text behind an optional sign, at least one.
bool is_exponent(std::string_view text) {
  if (!text.empty() && (text.front() == '+' || text.front() == '-')) text.remove_prefix(1);
  return !text.empty() && std::all_of(text.begin(), text.end(), is_digit);
}

/// False when the text has not the form of a number.
bool take_apart(std::string_view text, char decimal, Parts& parts) {
  if (!text.empty() && (text.front() == '+' || text.front() == '-')) {
    parts.minus = text.front() == '-';
    text.remove_prefix(1);
  }
  bool behind_mark = false;
  bool any = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (take_digit(c, parts)) {
      any = true;
      if (behind_mark) ++parts.decimals;
    } else if (c == decimal && !behind_mark) {
      behind_mark = true;
    } else {
      parts.has_exponent = c == 'e' || c == 'E';
      return any && parts.has_exponent && is_exponent(text.substr(i + 1));
    }
  }
  return any;
}

/// By the standard library, for what is too long or has an exponent.
bool read_any_length(std::string_view text, char decimal, double& value) {
  if (text.front() == '+') text.remove_prefix(1);
  std::string with_point;
  if (decimal != '.') {
    with_point = text;
    for (char& c : with_point) {
      if (c == decimal) c = '.';
    }
    text = with_point;
  }
  double read = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), read);
  if (error != std::errc() || end != text.data() + text.size()) return false;
  value = read;
  return true;
}

}  // namespace

bool read_log_number(std::string_view cell, char decimal, double& value) {
  Parts parts;
  if (!take_apart(cell, decimal, parts)) return false;
  // A whole number below 2^53 and a power of ten up to 1e22 are exact, so that the division is the
  // only rounding (W. D. Clinger, "How to read floating point numbers accurately", 1990: from
  // memory).
  constexpr int exact_digits = 15;
  constexpr int exact_decimals = static_cast<int>(exact_powers_of_ten.size()) - 1;
  if (parts.has_exponent || parts.significant > exact_digits || parts.decimals > exact_decimals) {
    return read_any_length(cell, decimal, value);
  }
  const double size = static_cast<double>(parts.digits) /
                      exact_powers_of_ten[static_cast<std::size_t>(parts.decimals)];
  value = parts.minus ? -size : size;
  return true;
}

#if defined(__SSE2__) && defined(__GNUC__)

namespace {

constexpr double blank = std::numeric_limits<double>::quiet_NaN();

/// What to take from where so that the gap of a decimal mark closes, by the mark's place; the last
/// is for numbers without one. 0x80 and above: nothing.
constexpr std::array<ByteMask, 17> gap_closings = [] {
  std::array<ByteMask, 17> moves{};
  for (std::size_t mark = 0; mark <= 16; ++mark) {
    for (std::size_t i = 0; i < 16; ++i) {
      const bool moves_up = mark < 16 && i <= mark;
      moves[mark].bytes[i] =
          moves_up && i == 0 ? 0x80 : static_cast<unsigned char>(moves_up ? i - 1 : i);
    }
  }
  return moves;
}();

/// By the place of a mark, the power of ten to divide by.
constexpr std::array<double, 17> powers_by_mark = [] {
  std::array<double, 17> powers{};
  for (std::size_t mark = 0; mark <= 16; ++mark)
    powers[mark] = mark_places[mark].power;
  return powers;
}();

/// What is known of a cell before its digits are looked at.
struct CellBounds {
  const char* end;
  std::size_t size;   ///< without the sign
  std::size_t minus;  ///< 1: a minus stands before it
};

/// @param end  in the index
template <bool closes_rows>
CellBounds bounds_of(const char* text, const std::uint32_t* end) {
  const std::size_t begin = end[-1] + 1U;
  std::size_t size = *end - begin;
  if (closes_rows && size > 0 && text[*end - 1U] == '\r') --size;
  const std::size_t minus = text[begin] == '-' ? 1U : 0U;
  return {text + begin + size, size - minus, minus};
}

[[gnu::target("avx2")]] inline __m256i two_halves(const void* low, const void* high) {
  __m128i first;
  __m128i second;
  std::memcpy(&first, low, sizeof first);
  std::memcpy(&second, high, sizeof second);
  return _mm256_inserti128_si256(_mm256_castsi128_si256(first), second, 1);
}

/// The digits of two cells, each as its value in a byte and at the right of its half, if they are
/// digits.
struct TwoCells {
  __m256i digits;
  unsigned low_mark;  ///< its place; 16: none
  unsigned high_mark;
};

[[gnu::target("avx2")]] inline TwoCells digits_of(const CellBounds& low, const CellBounds& high,
                                                  __m256i mark) {
  const __m256i masks = two_halves(&last_bytes[low.size], &last_bytes[high.size]);
  const __m256i texts = two_halves(low.end - 16, high.end - 16);
  const __m256i characters = _mm256_and_si256(_mm256_sub_epi8(texts, _mm256_set1_epi8('0')), masks);
  const auto marks =
      static_cast<std::uint32_t>(_mm256_movemask_epi8(_mm256_cmpeq_epi8(characters, mark)));
  constexpr unsigned no_mark = 0x10000;
  const auto low_mark = static_cast<unsigned>(std::countr_zero(marks | no_mark));
  const auto high_mark = static_cast<unsigned>(std::countr_zero((marks >> 16U) | no_mark));
  const __m256i closings = two_halves(&gap_closings[low_mark], &gap_closings[high_mark]);
  return {_mm256_shuffle_epi8(characters, closings), low_mark, high_mark};
}

/// As `join_digits`; of each cell its first eight digits and its last.
[[gnu::target("avx2")]] inline __m256d join_two(__m256i digits) {
  const __m256i pairs = _mm256_maddubs_epi16(digits, _mm256_set1_epi16(0x010A));
  const __m256i fours = _mm256_madd_epi16(pairs, _mm256_set1_epi32(0x00010064));
  const __m256i eights =
      _mm256_madd_epi16(_mm256_packs_epi32(fours, fours), _mm256_set1_epi32(0x00012710));
  return _mm256_cvtepi32_pd(_mm256_castsi256_si128(_mm256_permute4x64_epi64(eights, 0x08)));
}

/// A cell without digits becomes NaN; false when it is not blank, but a sign or a mark alone.
inline bool blank_without_digits(const CellBounds& cell, unsigned mark, double& value) {
  if (cell.size > (mark < 16 ? 1U : 0U)) return true;
  value = blank;
  return cell.size == 0 && cell.minus == 0;
}

inline double sign_of(const CellBounds& cell) {
  return cell.minus != 0 ? -0.0 : 0.0;
}

/// Four cells at a time, in pairs; the last four again where they make no four.
template <bool closes_rows>
[[gnu::target("avx2")]] bool read_fours(const CellColumn& column, __m128i mark, double* into) {
  const __m256i marks = _mm256_broadcastsi128_si256(mark);
  const __m256d weights = _mm256_setr_pd(1e8, 1.0, 1e8, 1.0);
  const __m256i nine = _mm256_set1_epi8(9);
  __m256i beyond_digits = _mm256_setzero_si256();
  for (std::size_t row = 0; row < column.rows; row += 4) {
    const std::size_t from = std::min(row, column.rows - 4);
    const std::uint32_t* const end = column.ends + from * column.cells;
    const CellBounds a = bounds_of<closes_rows>(column.text, end);
    const CellBounds b = bounds_of<closes_rows>(column.text, end + column.cells);
    const CellBounds c = bounds_of<closes_rows>(column.text, end + 2 * column.cells);
    const CellBounds d = bounds_of<closes_rows>(column.text, end + 3 * column.cells);
    constexpr std::size_t longest = 15;
    if ((a.size | b.size | c.size | d.size) > longest) return false;
    const TwoCells low = digits_of(a, b, marks);
    const TwoCells high = digits_of(c, d, marks);
    beyond_digits = _mm256_or_si256(
        beyond_digits, _mm256_subs_epu8(_mm256_max_epu8(low.digits, high.digits), nine));
    // Below 2^53 with all their parts: exact. The sums come as those of a, c, b, d.
    const __m256d whole = _mm256_hadd_pd(_mm256_mul_pd(join_two(low.digits), weights),
                                         _mm256_mul_pd(join_two(high.digits), weights));
    const __m256d powers =
        _mm256_setr_pd(powers_by_mark[low.low_mark], powers_by_mark[low.high_mark],
                       powers_by_mark[high.low_mark], powers_by_mark[high.high_mark]);
    __m256d numbers = _mm256_div_pd(_mm256_permute4x64_pd(whole, 0xD8), powers);
    if ((a.minus | b.minus | c.minus | d.minus) != 0)
      numbers =
          _mm256_xor_pd(numbers, _mm256_setr_pd(sign_of(a), sign_of(b), sign_of(c), sign_of(d)));
    double* const to = into + from;
    _mm256_storeu_pd(to, numbers);
    // Of two characters one is a digit; fewer than two wrap around.
    const bool short_one = ((a.size - 2) | (b.size - 2) | (c.size - 2) | (d.size - 2)) > longest;
    if (short_one && !(blank_without_digits(a, low.low_mark, to[0]) &&
                       blank_without_digits(b, low.high_mark, to[1]) &&
                       blank_without_digits(c, high.low_mark, to[2]) &&
                       blank_without_digits(d, high.high_mark, to[3])))
      return false;
  }
  return _mm256_testz_si256(beyond_digits, beyond_digits) != 0;
}

}  // namespace

bool ShortNumbers::read_one_by_one(const CellColumn& column, double* into) const {
  for (std::size_t row = 0; row < column.rows; ++row) {
    const std::string_view cell = column.cell(row);
    into[row] = blank;
    if (!cell.empty() && !read(cell, into[row])) return false;
  }
  return true;
}

bool ShortNumbers::read_with(Vectors vectors, const CellColumn& column, double* into) const {
  if (vectors == Vectors::plain || column.rows < 4) return read_one_by_one(column, into);
  const auto mark = std::bit_cast<__m128i>(mark_);
  return column.closes_rows ? read_fours<true>(column, mark, into)
                            : read_fours<false>(column, mark, into);
}

bool ShortNumbers::read(const CellColumn& column, double* into) const {
  static const Vectors widest = widest_vectors();
  return read_with(widest, column, into);
}

#endif

}  // namespace hailwright::detail
