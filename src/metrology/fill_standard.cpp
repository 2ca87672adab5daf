#include "metrology/fill_standard.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "hailwright/core/contract.hpp"
#include "metrology/portable_kernels.hpp"
#include "metrology/random_kernels.hpp"
#include "metrology/ziggurat.hpp"

namespace hailwright {

namespace detail {

namespace {

/// Numbers made at once: they and what they are made from stay near the processor.
constexpr std::size_t most_at_once = 512;
static_assert(most_at_once % RandomLanes::count == 0);

struct Word {
  [[gnu::always_inline]] std::uint64_t operator()(std::uint64_t word) const { return word; }
};

struct OpenUnit {
  [[gnu::always_inline]] double operator()(std::uint64_t word) const { return open_unit(word); }
};

struct CentredUnit {
  [[gnu::always_inline]] double operator()(std::uint64_t word) const { return centred_unit(word); }
};

struct Rectangular {
  [[gnu::always_inline]] double operator()(std::uint64_t word) const {
    return centred_unit(word) * (2.0 * std::numbers::sqrt3);
  }
};

struct Arcsine {
  [[gnu::always_inline]] double operator()(std::uint64_t word) const {
    return sine_of_half_turns(centred_unit(word)) * std::numbers::sqrt2;
  }
};

struct Triangular {
  [[gnu::always_inline]] double operator()(double unit, double centred) const {
    constexpr double sqrt6 = std::numbers::sqrt2 * std::numbers::sqrt3;
    return ((unit - 0.5) + centred) * sqrt6;
  }
};

/// Calls `fill(place, rows)` for piece after piece.
template <class Fill>
[[gnu::always_inline]] inline void by_pieces(std::span<double> values, Fill fill) {
  constexpr std::size_t row = RandomLanes::count;
  while (values.size() >= row) {
    const std::size_t rows = std::min(values.size(), most_at_once) / row;
    fill(values.data(), rows);
    values = values.subspan(rows * row);
  }
  if (values.empty()) return;
  std::array<double, row> last{};
  fill(last.data(), std::size_t{1});
  std::copy_n(last.begin(), values.size(), values.begin());
}

/// One word a number.
template <class Number>
void fill_from_words(Vectors vectors, RandomLanes& lanes, std::span<double> values, Number number) {
  const auto loop = [&](auto width) __attribute__((always_inline)) {
    const auto fill = [&](double* out, std::size_t rows) __attribute__((always_inline)) {
      fill_rows(width, lanes, out, rows, number);
    };
    by_pieces(values, fill);
  };
  run_with(vectors, loop);
}

/// Two words a number: an open unit and a centred one.
template <class Number>
void fill_from_pairs(Vectors vectors, RandomLanes& lanes, std::span<double> values, Number number) {
  const auto loop = [&](auto width) __attribute__((always_inline)) {
    // NOLINTNEXTLINE(cppcoreguidelines-pro-type-member-init): filled before it is read
    std::array<double, most_at_once> centred;
    const auto fill = [&](double* out, std::size_t rows) __attribute__((always_inline)) {
      fill_rows(width, lanes, out, rows, OpenUnit{});
      fill_rows(width, lanes, centred.data(), rows, CentredUnit{});
      for (std::size_t i = 0; i < rows * RandomLanes::count; ++i)
        out[i] = number(out[i], centred[i]);
    };
    by_pieces(values, fill);
  };
  run_with(vectors, loop);
}

/// Draws by the rectangles; whether some word fell on the rest instead.
[[gnu::always_inline]] inline bool draw_in_rectangles(const std::uint64_t* __restrict words,
                                                      const double* __restrict full_width,
                                                      std::uint64_t rectangles,
                                                      double* __restrict values, std::size_t n) {
  // Adding this to a layer of the rest, and to no other, carries into the bit above the layers.
  const std::uint64_t carry = Ziggurat::layers - rectangles;
  std::uint64_t seen = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const std::uint64_t layer = words[i] % Ziggurat::layers;
    values[i] = centred_unit(words[i]) * full_width[layer];
    seen |= layer + carry;
  }
  return (seen & Ziggurat::layers) != 0;
}

void draw_by_rest(RandomStream& random, const std::uint64_t* words, std::span<double> values) {
  const Ziggurat& z = ziggurat();
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (!z.in_rectangle(words[i])) values[i] = z.draw(words[i], random);
  }
}

/// Normal draws out of words, many at a time.
void draw_normal_groups(Vectors vectors, RandomStream& random, const std::uint64_t* words,
                        std::span<double> values) {
  // Among so many a word that falls on the rest is rare.
  constexpr std::size_t group = 32;
  const Ziggurat& z = ziggurat();
  const auto loop = [&](auto) __attribute__((always_inline)) {
    for (std::size_t first = 0; first < values.size(); first += group) {
      const std::size_t n = std::min(std::size_t{group}, values.size() - first);
      double* const out = values.data() + first;
      if (draw_in_rectangles(words + first, z.full_width().data(), z.rectangles(), out, n))
        draw_by_rest(random, words + first, {out, n});
    }
  };
  run_with(vectors, loop);
}

/// The same one by one, quicker without wide vectors.
void draw_normal_singly(RandomStream& random, const std::uint64_t* words,
                        std::span<double> values) {
  const Ziggurat& z = ziggurat();
  for (double& v : values)
    v = z.draw(*words++, random);
}

void fill_normal(Vectors vectors, RandomStream& random, std::span<double> values) {
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-member-init): filled before it is read
  std::array<std::uint64_t, most_at_once> words;
  while (!values.empty()) {
    const std::size_t n = std::min(values.size(), most_at_once);
    const std::size_t rows = (n + RandomLanes::count - 1) / RandomLanes::count;
    const auto loop = [&](auto width) __attribute__((always_inline)) {
      fill_rows(width, random.lanes(), words.data(), rows, Word{});
    };
    run_with(vectors, loop);
    // Reading a table takes the widest vectors longer than those half as wide.
    if (vectors == Vectors::plain)
      draw_normal_singly(random, words.data(), values.first(n));
    else
      draw_normal_groups(Vectors::avx2, random, words.data(), values.first(n));
    values = values.subspan(n);
  }
}

}  // namespace

void fill_standard_with(Vectors vectors, RandomStream& random, Shape shape,
                        double degrees_of_freedom, std::span<double> values) {
  switch (shape) {
  case Shape::rectangular:
    return fill_from_words(vectors, random.lanes(), values, Rectangular{});
  case Shape::triangular:
    return fill_from_pairs(vectors, random.lanes(), values, Triangular{});
  case Shape::arcsine:
    return fill_from_words(vectors, random.lanes(), values, Arcsine{});
  case Shape::normal:
    break;
  }
  expects(degrees_of_freedom > 0.0, "fill_standard: degrees of freedom above 0");
  if (degrees_of_freedom > t_is_normal_above) return fill_normal(vectors, random, values);
  fill_from_pairs(vectors, random.lanes(), values, StudentT(degrees_of_freedom));
}

}  // namespace detail

void fill_standard(RandomStream& random, Shape shape, double degrees_of_freedom,
                   std::span<double> values) {
  detail::fill_standard_with(detail::widest_vectors(), random, shape, degrees_of_freedom, values);
}

}  // namespace hailwright
