#include "logs/log_parser_index.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cstddef>
#include <cstring>

#if defined(__SSE2__) && defined(__GNUC__)
#include <immintrin.h>
#endif

#include "hailwright/core/contract.hpp"

namespace hailwright::detail {

namespace {

constexpr std::size_t word_bytes = 64;
constexpr std::size_t words_at_once = 64;

/// A bit for each of 64 bytes, of so many words.
struct ByteMasks {
  std::array<std::uint64_t, words_at_once> ends;
  std::array<std::uint64_t, words_at_once> breaks;
  std::array<std::uint64_t, words_at_once> strange;  ///< not in a plain cell, nor an end of one
};

/// Fills the first `words` of the masks.
using FindMasks = void (*)(const char* bytes, std::size_t words, char separator, ByteMasks& masks);

constexpr bool is_strange(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte < 0x20U || byte >= 0x7FU || c == '"';
}

void find_masks_plainly(const char* bytes, std::size_t words, char separator, ByteMasks& masks) {
  for (std::size_t word = 0; word < words; ++word) {
    masks.ends[word] = masks.breaks[word] = masks.strange[word] = 0;
    for (std::size_t i = 0; i < word_bytes; ++i) {
      const std::uint64_t bit = std::uint64_t{1} << i;
      const char c = bytes[word * word_bytes + i];
      if (c == '\n') masks.breaks[word] |= bit;
      if (c == '\n' || c == separator) {
        masks.ends[word] |= bit;
      } else if (is_strange(c)) {
        masks.strange[word] |= bit;
      }
    }
  }
}

#if defined(__SSE2__) && defined(__GNUC__)

// Bytes from 0x80 on are negative, so that one comparison takes them with the controls.

/// SSE2 belongs to every x86-64.
void find_masks_sse2(const char* bytes, std::size_t words, char separator, ByteMasks& masks) {
  const auto bits = [](__m128i matches, unsigned part) {
    return std::uint64_t{static_cast<std::uint32_t>(_mm_movemask_epi8(matches))} << (16 * part);
  };
  for (std::size_t word = 0; word < words; ++word) {
    masks.ends[word] = masks.breaks[word] = masks.strange[word] = 0;
    for (unsigned part = 0; part < 4; ++part) {
      __m128i found;
      std::memcpy(&found, bytes + word * word_bytes + std::size_t{16} * part, sizeof found);
      const __m128i breaks = _mm_cmpeq_epi8(found, _mm_set1_epi8('\n'));
      const __m128i ends = _mm_or_si128(breaks, _mm_cmpeq_epi8(found, _mm_set1_epi8(separator)));
      const __m128i marks = _mm_or_si128(_mm_cmpeq_epi8(found, _mm_set1_epi8('"')),
                                         _mm_cmpeq_epi8(found, _mm_set1_epi8(0x7F)));
      const __m128i strange = _mm_or_si128(marks, _mm_cmplt_epi8(found, _mm_set1_epi8(' ')));
      masks.ends[word] |= bits(ends, part);
      masks.breaks[word] |= bits(breaks, part);
      masks.strange[word] |= bits(_mm_andnot_si128(ends, strange), part);
    }
  }
}

[[gnu::target("avx2")]] void find_masks_avx2(const char* bytes, std::size_t words, char separator,
                                             ByteMasks& masks) {
  const __m256i line_feed = _mm256_set1_epi8('\n');
  const __m256i comma = _mm256_set1_epi8(separator);
  const __m256i blank = _mm256_set1_epi8(' ');
  const __m256i quote = _mm256_set1_epi8('"');
  const __m256i del = _mm256_set1_epi8(0x7F);
  for (std::size_t word = 0; word < words; ++word) {
    std::uint64_t ends = 0;
    std::uint64_t breaks = 0;
    std::uint64_t strange = 0;
    for (unsigned shift = 0; shift < word_bytes; shift += 32) {
      __m256i found;
      std::memcpy(&found, bytes + word * word_bytes + shift, sizeof found);
      const __m256i feeds = _mm256_cmpeq_epi8(found, line_feed);
      const __m256i stops = _mm256_or_si256(feeds, _mm256_cmpeq_epi8(found, comma));
      const __m256i marks =
          _mm256_or_si256(_mm256_cmpeq_epi8(found, quote), _mm256_cmpeq_epi8(found, del));
      const __m256i others =
          _mm256_andnot_si256(stops, _mm256_or_si256(marks, _mm256_cmpgt_epi8(blank, found)));
      ends |= std::uint64_t{static_cast<std::uint32_t>(_mm256_movemask_epi8(stops))} << shift;
      breaks |= std::uint64_t{static_cast<std::uint32_t>(_mm256_movemask_epi8(feeds))} << shift;
      strange |= std::uint64_t{static_cast<std::uint32_t>(_mm256_movemask_epi8(others))} << shift;
    }
    masks.ends[word] = ends;
    masks.breaks[word] = breaks;
    masks.strange[word] = strange;
  }
}

#endif

/// How many bits are set. Not every x86-64 has an instruction for it, and the library's way is a
/// call (H. S. Warren, "Hacker's Delight", population count: from memory).
template <bool has_instruction>
[[gnu::always_inline]] inline std::size_t count_bits(std::uint64_t bits) {
  if constexpr (has_instruction) return static_cast<std::size_t>(std::popcount(bits));
  bits -= (bits >> 1U) & 0x5555555555555555;
  bits = (bits & 0x3333333333333333) + ((bits >> 2U) & 0x3333333333333333);
  bits = (bits + (bits >> 4U)) & 0x0F0F0F0F0F0F0F0F;
  return static_cast<std::size_t>((bits * 0x0101010101010101) >> 56U);
}

[[gnu::always_inline]] inline std::uint32_t offset_of_lowest(std::uint64_t bits, std::size_t base) {
  // Of no bits the place is of no use, but must be one.
  constexpr std::uint64_t stop = std::uint64_t{1} << 63U;
  return static_cast<std::uint32_t>(base) +
         static_cast<std::uint32_t>(std::countr_zero(bits | stop));
}

/// Writes the offsets of all bits, so many at a time without asking whether there are so many: a
/// branch for each would be guessed wrongly once in every word.
template <std::size_t at_once, bool has_instruction>
[[gnu::always_inline]] inline void write_offsets(std::uint64_t bits, std::size_t base,
                                                 PieceIndex::Offsets& offsets) {
  std::uint32_t* to = offsets.at.data() + offsets.size;
  offsets.size += count_bits<has_instruction>(bits);
  do {
    for (std::size_t i = 0; i < at_once; ++i) {
      to[i] = offset_of_lowest(bits, base);
      bits &= bits - 1;
    }
    to += at_once;
  } while (bits != 0);
}

/// Makes room for so many more. Not for all that a piece could have: most of it would never be
/// used, and memory that is touched first costs more than its use.
void make_room(PieceIndex::Offsets& offsets, std::size_t more) {
  constexpr std::size_t written_in_excess = 8;
  const std::size_t needed = offsets.size + more + written_in_excess;
  if (offsets.at.size() < needed) offsets.at.resize(needed + needed / 2);
}

/// Of strange bytes all are odd but a carriage return before a line feed.
void write_odd(std::uint64_t bits, std::size_t base, std::string_view piece, PieceIndex& index) {
  for (; bits != 0; bits &= bits - 1) {
    const std::size_t at = base + static_cast<std::size_t>(std::countr_zero(bits));
    const bool line_ends = piece[at] == '\r' && at + 1 < piece.size() && piece[at + 1] == '\n';
    if (!line_ends) index.odd.push_back(static_cast<std::uint32_t>(at));
  }
}

/// @param base  offset of the first of the words
template <bool has_instruction>
[[gnu::always_inline]] inline void write_words(std::string_view piece, std::size_t base,
                                               const ByteMasks& masks, std::size_t words,
                                               PieceIndex& index) {
  make_room(index.ends, words * word_bytes);
  make_room(index.breaks, words * word_bytes);
  for (std::size_t word = 0; word < words; ++word, base += word_bytes) {
    write_offsets<8, has_instruction>(masks.ends[word], base, index.ends);
    write_offsets<2, has_instruction>(masks.breaks[word], base, index.breaks);
    if (masks.strange[word] != 0) write_odd(masks.strange[word], base, piece, index);
  }
}

using WriteWords = void (*)(std::string_view piece, std::size_t base, const ByteMasks& masks,
                            std::size_t words, PieceIndex& index);

void write_words_plainly(std::string_view piece, std::size_t base, const ByteMasks& masks,
                         std::size_t words, PieceIndex& index) {
  write_words<false>(piece, base, masks, words, index);
}

/// How a piece is indexed.
struct Way {
  FindMasks find_masks;
  WriteWords write_words;
};

#if defined(__SSE2__) && defined(__GNUC__)

/// With instructions that count and find bits, a fifth of the time goes.
[[gnu::target("avx2,bmi,popcnt")]] void write_words_bmi(std::string_view piece, std::size_t base,
                                                        const ByteMasks& masks, std::size_t words,
                                                        PieceIndex& index) {
  write_words<true>(piece, base, masks, words, index);
}

Way best_way(Vectors vectors) {
  if (vectors == Vectors::plain) return {find_masks_sse2, write_words_plainly};
  static const bool bits = __builtin_cpu_supports("bmi") && __builtin_cpu_supports("popcnt");
  return {find_masks_avx2, bits ? write_words_bmi : write_words_plainly};
}

#else

Way best_way(Vectors) {
  return {find_masks_plainly, write_words_plainly};
}

#endif

void index_with(const Way& way, std::string_view piece, char separator, PieceIndex& index) {
  expects(piece.size() < 0x80000000U, "a piece is shorter than 2^31 bytes");
  index.odd.clear();
  index.ends.size = 0;
  index.breaks.size = 0;
  make_room(index.ends, 1);
  index.ends.at[index.ends.size++] = PieceIndex::before_all;
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-member-init): filled before it is read
  ByteMasks masks;
  std::size_t base = 0;
  while (piece.size() - base >= word_bytes) {
    const std::size_t words = std::min((piece.size() - base) / word_bytes, words_at_once);
    way.find_masks(piece.data() + base, words, separator, masks);
    way.write_words(piece, base, masks, words, index);
    base += words * word_bytes;
  }
  if (base < piece.size()) {
    // NOLINTNEXTLINE(cppcoreguidelines-pro-type-member-init): filled before it is read
    std::array<char, word_bytes> tail;
    tail.fill(' ');
    std::copy(piece.begin() + static_cast<std::ptrdiff_t>(base), piece.end(), tail.begin());
    way.find_masks(tail.data(), 1, separator, masks);
    way.write_words(piece, base, masks, 1, index);
  }
  index.odd.push_back(PieceIndex::beyond_all);
}

}  // namespace

void index_piece(std::string_view piece, char separator, PieceIndex& index) {
  static const Vectors widest = widest_vectors();
  index_piece_with(widest, piece, separator, index);
}

void index_piece_with(Vectors vectors, std::string_view piece, char separator, PieceIndex& index) {
  index_with(best_way(vectors), piece, separator, index);
}

void index_piece_plainly(std::string_view piece, char separator, PieceIndex& index) {
  index_with({find_masks_plainly, write_words_plainly}, piece, separator, index);
}

}  // namespace hailwright::detail
