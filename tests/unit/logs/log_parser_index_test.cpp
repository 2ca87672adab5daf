#include "logs/log_parser_index.hpp"

#include <random>
#include <string>
#include <vector>

#include "support/catch.hpp"

using namespace hailwright::detail;

namespace {

std::vector<std::uint32_t> copy(const PieceIndex::Offsets& offsets) {
  return {offsets.begin(), offsets.end()};
}

bool is_odd_at(const std::string& text, std::size_t i, char separator) {
  const auto byte = static_cast<unsigned char>(text[i]);
  if (text[i] == '\n' || text[i] == separator) return false;
  if (text[i] == '\r') return i + 1 == text.size() || text[i + 1] != '\n';
  return byte < 0x20 || byte >= 0x7F || text[i] == '"';
}

}  // namespace

TEST_CASE("log_parser_index: all ways find what a plain loop finds", "[logs]") {
  std::mt19937_64 random(7);
  const std::string common = "0123456789.,;\n\r\n\t \"a";
  PieceIndex quick;
  PieceIndex plain;
  for (std::size_t round = 0; round < 2000; ++round) {
    std::string text;
    for (std::size_t size = random() % 400; text.size() < size;)
      text +=
          random() % 50 == 0 ? static_cast<char>(random() % 256) : common[random() % common.size()];
    if (round % 10 == 0) text.assign(random() % 300, ',');
    const char separator = ",;\t"[round % 3];
    std::vector<std::uint32_t> ends{PieceIndex::before_all};
    std::vector<std::uint32_t> breaks;
    std::vector<std::uint32_t> odd;
    for (std::size_t i = 0; i < text.size(); ++i) {
      const auto offset = static_cast<std::uint32_t>(i);
      if (text[i] == '\n' || text[i] == separator) ends.push_back(offset);
      if (text[i] == '\n') breaks.push_back(offset);
      if (is_odd_at(text, i, separator)) odd.push_back(offset);
    }
    odd.push_back(PieceIndex::beyond_all);
    index_piece(text, separator, quick);
    index_piece_plainly(text, separator, plain);
    CAPTURE(round, text);
    REQUIRE(copy(quick.ends) == ends);
    REQUIRE(copy(quick.breaks) == breaks);
    REQUIRE(quick.odd == odd);
    REQUIRE(copy(plain.ends) == ends);
    REQUIRE(copy(plain.breaks) == breaks);
    REQUIRE(plain.odd == odd);
    for (const Vectors vectors : {Vectors::plain, Vectors::avx2, Vectors::avx512}) {
      if (vectors > widest_vectors()) continue;
      index_piece_with(vectors, text, separator, quick);
      REQUIRE(copy(quick.ends) == ends);
      REQUIRE(copy(quick.breaks) == breaks);
      REQUIRE(quick.odd == odd);
    }
  }
}

TEST_CASE("log_parser_index: a piece of separators alone is as long as its index", "[logs]") {
  PieceIndex index;
  for (const std::size_t size : {1U, 63U, 64U, 4096U, 4097U, 300'000U}) {
    index_piece(std::string(size, ';'), ';', index);
    REQUIRE(index.ends.size == size + 1);
    CHECK(index.ends.at[size] == size - 1);
    CHECK(index.breaks.size == 0);
    index_piece(std::string(size, '\n'), ';', index);
    REQUIRE(index.breaks.size == size);
    CHECK(index.breaks.at[size - 1] == size - 1);
  }
}
