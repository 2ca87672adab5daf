#include "logs/log_number.hpp"

#include <bit>
#include <charconv>
#include <cmath>
#include <limits>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "support/catch.hpp"

using namespace hailwright::detail;

namespace {

std::optional<double> by_hand(const std::string& cell, char decimal = '.') {
  double value = 0.0;
  return read_log_number(cell, decimal, value) ? std::optional(value) : std::nullopt;
}

/// Nothing when the short way leaves it to the other.
std::optional<double> short_way(const std::string& cell, char decimal = '.') {
  const std::string padded = "12345678.,-9,.12" + cell;
  double value = 0.0;
  return ShortNumbers(decimal).read(std::string_view(padded).substr(16), value)
             ? std::optional(value)
             : std::nullopt;
}

std::string random_digits(std::mt19937_64& random, std::size_t most) {
  std::string digits;
  for (std::size_t i = random() % (most + 1); i > 0; --i)
    digits += static_cast<char>('0' + random() % 10);
  return digits;
}

std::string random_number(std::mt19937_64& random) {
  const bool long_one = random() % 20 == 0;
  std::string cell = random() % 3 == 0 ? "-" : "";
  cell += random_digits(random, long_one ? 25 : 9);
  if (random() % 4 != 0) cell += '.' + random_digits(random, long_one ? 30 : 8);
  if (random() % 20 == 0) cell += 'e' + std::to_string(static_cast<int>(random() % 40) - 20);
  return cell;
}

/// The bits of the standard library's answer; nothing when it does not take the whole text.
std::optional<std::uint64_t> standard_bits(const std::string& cell) {
  double value = 0.0;
  const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
  if (error != std::errc() || end != cell.data() + cell.size()) return std::nullopt;
  return std::bit_cast<std::uint64_t>(value);
}

std::string with_comma(std::string cell) {
  for (char& c : cell) {
    if (c == '.') c = ',';
  }
  return cell;
}

/// Rows of two cells with their index; the numbers stand in one of them.
struct Rows {
  std::string text = "0123456789.,-12\n";
  std::vector<std::uint32_t> ends{15};
  std::size_t place = 0;
  std::string behind;  ///< each row: a carriage return, or nothing

  void add(const std::string& cell) {
    put(place == 0 ? cell : "-7", ";");
    put((place == 1 ? cell : "-7") + behind, "\n");
  }
  [[nodiscard]] CellColumn column() const {
    return {text.data(), ends.data() + 1 + place, 2, (ends.size() - 1) / 2, place == 1};
  }

private:
  void put(const std::string& cell, const char* end) {
    text += cell;
    ends.push_back(static_cast<std::uint32_t>(text.size()));
    text += end;
  }
};

std::vector<Vectors> vectors_here() {
  std::vector<Vectors> all{Vectors::plain};
  for (const Vectors wider : {Vectors::avx2, Vectors::avx512})
    if (wider <= widest_vectors()) all.push_back(wider);
  return all;
}

/// The bits of each cell; nothing where the column must be read another way.
using ColumnBits = std::optional<std::vector<std::uint64_t>>;

ColumnBits column_bits(Vectors vectors, const Rows& rows, char decimal) {
  std::vector<double> values(rows.column().rows);
  if (!ShortNumbers(decimal).read_with(vectors, rows.column(), values.data())) return std::nullopt;
  std::vector<std::uint64_t> bits;
  for (const double value : values)
    bits.push_back(std::bit_cast<std::uint64_t>(value));
  return bits;
}

/// As cell by cell; a blank one is NaN.
ColumnBits bits_one_by_one(const std::vector<std::string>& cells, char decimal) {
  std::vector<std::uint64_t> bits;
  for (const std::string& cell : cells) {
    const std::optional<double> value =
        cell.empty() ? std::numeric_limits<double>::quiet_NaN() : short_way(cell, decimal);
    if (!value) return std::nullopt;
    bits.push_back(std::bit_cast<std::uint64_t>(*value));
  }
  return bits;
}

/// Mostly what a column holds, now and then what it must not.
std::string random_cell(std::mt19937_64& random) {
  if (random() % 40 == 0) return "";
  if (random() % 200 == 0) return random_number(random);
  if (random() % 400 == 0) return std::string(random() % 4, "-.:/ 1"[random() % 6]);
  std::string cell = random() % 4 == 0 ? "-" : "";
  cell += std::to_string(random() % 100'000'000);
  const std::size_t decimals = random() % 6;
  return decimals == 0 ? cell : cell + "." + std::to_string(random()).substr(0, decimals);
}

}  // namespace

TEST_CASE("log_number: a million random texts give the bits of std::from_chars", "[logs]") {
  std::mt19937_64 random(20260614);
  int wrong = 0;
  int short_ones = 0;
  for (int i = 0; i < 1'000'000; ++i) {
    const std::string cell = random_number(random);
    const std::optional<std::uint64_t> wanted = standard_bits(cell);
    const auto agrees = [&](std::optional<double> found) {
      return found.has_value() == wanted.has_value() &&
             (!found || std::bit_cast<std::uint64_t>(*found) == *wanted);
    };
    const std::optional<double> quick = cell.empty() ? std::nullopt : short_way(cell);
    const bool right = agrees(by_hand(cell)) && agrees(by_hand(with_comma(cell), ',')) &&
                       (!quick || agrees(quick)) &&
                       (cell.empty() || short_way(with_comma(cell), ',') == quick);
    if (!right && ++wrong == 1) {
      CAPTURE(cell);
      CHECK(right);
    }
    short_ones += quick ? 1 : 0;
  }
  CHECK(wrong == 0);
#if defined(__SSE2__) && defined(__GNUC__)
  CHECK(short_ones > 500'000);
#endif
}

TEST_CASE("log_number: what is no decimal number is not read", "[logs]") {
  for (const std::string cell : {"",
                                 " ",
                                 "-",
                                 "+",
                                 ".",
                                 "-.",
                                 "1.2.3",
                                 "1,5",
                                 "1e",
                                 "1e+",
                                 "e5",
                                 "1e5.0",
                                 "nan",
                                 "inf",
                                 "-inf",
                                 "0x10",
                                 "1_000",
                                 "1'000",
                                 "12 3",
                                 " 1",
                                 "1 ",
                                 "ERR",
                                 "---",
                                 "1-",
                                 "--1",
                                 "+-1",
                                 "1e999",
                                 "-1e999",
                                 "1/2",
                                 ":",
                                 "9:",
                                 "\xE2\x88\x92"
                                 "1"}) {
    CAPTURE(cell);
    CHECK_FALSE(by_hand(cell));
    if (!cell.empty()) CHECK_FALSE(short_way(cell));
  }
}

TEST_CASE("log_number: the ways in which people write numbers", "[logs]") {
  CHECK(by_hand("+5.25") == 5.25);
  CHECK(by_hand("5.") == 5.0);
  CHECK(by_hand(".5") == 0.5);
  CHECK(by_hand("-.5E+1") == -5.0);
  CHECK(by_hand("0007") == 7.0);
  CHECK(by_hand("79,123", ',') == 79.123);
  CHECK_FALSE(by_hand("79.123", ','));
  CHECK(by_hand("123456789012345678901234567890") == 123456789012345678901234567890.0);
  CHECK(std::signbit(*by_hand("-0.0")));
  CHECK(by_hand("0.1000000000000000055511151231257827") == 0.1);
}

TEST_CASE("log_number: the short way keeps off what stands before the cell", "[logs]") {
  if (!short_way("1")) return;  // a processor without vectors
  CHECK(short_way("7") == 7.0);
  CHECK(short_way("-7") == -7.0);
  CHECK(short_way("12345.678") == 12345.678);
  CHECK(short_way("123456789012.34") == 123456789012.34);
  CHECK(short_way("123456789012345") == 123456789012345.0);
  CHECK_FALSE(short_way("1234567890123.456"));
  CHECK_FALSE(short_way("1e3"));
}

TEST_CASE("log_number: columns have the bits of their cells, by any vectors", "[logs]") {
  if (!short_way("1")) return;
  std::mt19937_64 random(20260615);
  int read = 0;
  int refused = 0;
  for (int round = 0; round < 20'000; ++round) {
    const char decimal = round % 3 == 0 ? ',' : '.';
    Rows rows;
    rows.place = round % 2 == 0 ? 0 : 1;
    rows.behind = round % 4 == 1 ? "\r" : "";
    std::vector<std::string> cells;
    for (std::size_t count = 1 + random() % 12; cells.size() < count;) {
      cells.push_back(decimal == ',' ? with_comma(random_cell(random)) : random_cell(random));
      rows.add(cells.back());
    }
    const ColumnBits wanted = bits_one_by_one(cells, decimal);
    ++(wanted ? read : refused);
    for (const Vectors vectors : vectors_here()) {
      CAPTURE(cells, static_cast<int>(vectors));
      REQUIRE(column_bits(vectors, rows, decimal) == wanted);
    }
  }
  CHECK(read > 15'000);
  CHECK(refused > 200);
}

TEST_CASE("log_number: a cell that is no number is found wherever it stands", "[logs]") {
  if (!short_way("1")) return;
  for (const std::string bad :
       {"-", ".", "-.", "1.2.3", "1,5", "ERR", "1-", "--1", " 1", "1 ", ":", "/",
        "1234567890123456", "12345678901234567", "1e3", "-123456789012345678901234567890", "\r"}) {
    for (std::size_t at = 0; at < 9; ++at) {
      Rows rows;
      for (std::size_t i = 0; i < 9; ++i)
        rows.add(i == at ? bad : "5");
      for (const Vectors vectors : vectors_here()) {
        CAPTURE(bad, at, static_cast<int>(vectors));
        CHECK_FALSE(column_bits(vectors, rows, '.'));
      }
    }
  }
}
