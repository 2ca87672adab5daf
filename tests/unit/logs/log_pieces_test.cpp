#include "logs/log_pieces.hpp"

#include <algorithm>
#include <random>
#include <string>
#include <vector>

#include "logs/log_parser_slow.hpp"
#include "support/catch.hpp"
#include "support/log_samples.hpp"

using namespace hailwright;
using namespace hailwright::detail;

namespace {

struct Cut {
  std::vector<std::string> texts;
  std::vector<std::int64_t> bytes;
  bool operator==(const Cut&) const = default;
};

Cut cut(LogBytes bytes) {
  LogPieces pieces(std::move(bytes));
  Cut result;
  LogPiece piece;
  while (pieces.next(piece)) {
    CHECK(piece.at_file_begin == result.texts.empty());
    result.texts.emplace_back(piece.text());
    result.bytes.push_back(piece.bytes);
  }
  CHECK_FALSE(pieces.next(piece));
  return result;
}

std::string lines(std::size_t bytes, std::uint64_t seed) {
  std::mt19937_64 random(seed);
  std::string text;
  while (text.size() < bytes)
    text += std::string(random() % 120, 'x') + "\n";
  return text;
}

}  // namespace

TEST_CASE("log_pieces: the pieces are the same however the bytes come", "[logs]") {
  const std::string text = lines(3 * piece_bytes, 1) + "an end without a line break";
  const Cut whole = cut(test::bytes_of(text));
  CHECK(whole.texts.size() == 4);
  std::string joined;
  std::int64_t bytes = 0;
  for (std::size_t i = 0; i < whole.texts.size(); ++i) {
    joined += whole.texts[i];
    bytes += whole.bytes[i];
    CHECK(whole.texts[i].size() <= piece_bytes);
    if (i + 1 < whole.texts.size()) CHECK(whole.texts[i].back() == '\n');
  }
  CHECK(joined == text);
  CHECK(bytes == static_cast<std::int64_t>(text.size()));
  for (const std::size_t portion : {1U, 7U, 4096U, 65537U}) {
    CAPTURE(portion);
    CHECK(cut(test::bytes_of(text, [=] { return portion; })) == whole);
  }
  auto random = std::make_shared<std::mt19937_64>(5);
  CHECK(cut(test::bytes_of(text, [=] { return 1 + (*random)() % 100000; })) == whole);
}

TEST_CASE("log_pieces: nothing, one line, a file that fills its pieces", "[logs]") {
  CHECK(cut(test::bytes_of("")) == Cut{{""}, {0}});
  CHECK(cut(test::bytes_of("one")) == Cut{{"one"}, {3}});
  CHECK(cut(test::bytes_of("one\n")) == Cut{{"one\n"}, {4}});
  std::string full(piece_bytes, 'x');
  full[100] = '\n';
  full.back() = '\n';
  CHECK(cut(test::bytes_of(full)).texts == std::vector<std::string>{full});
  CHECK(cut(test::bytes_of(full + full)).texts == std::vector<std::string>{full, full});
}

TEST_CASE("log_pieces: a line longer than a piece is cut short, its bytes counted", "[logs]") {
  for (const std::size_t length :
       {piece_bytes - 1, piece_bytes, piece_bytes + 1, 5 * piece_bytes}) {
    CAPTURE(length);
    const std::string text = "a\n" + std::string(length, 'y') + "\nb\n";
    const Cut found = cut(test::bytes_of(text));
    std::int64_t bytes = 0;
    for (const std::int64_t count : found.bytes)
      bytes += count;
    CHECK(bytes == static_cast<std::int64_t>(text.size()));
    CHECK(found.texts.front() == "a\n");
    CHECK(found.texts.back().substr(found.texts.back().size() - 2) == "b\n");
    CHECK(found == cut(test::bytes_of(text, [] { return std::size_t{997}; })));
    std::string joined;
    for (const std::string& piece : found.texts)
      joined += piece;
    const std::size_t kept = joined.find("\nb") - 2;
    CHECK(kept > longest_line);
  }
  const Cut endless = cut(test::bytes_of(std::string(3 * piece_bytes, 'y')));
  CHECK(endless.texts == std::vector<std::string>{std::string(longest_line + 1, 'y')});
  CHECK(endless.bytes.front() == static_cast<std::int64_t>(3 * piece_bytes));
}

TEST_CASE("log_pieces: what broke off is not given", "[logs]") {
  LogPieces pieces(test::bytes_of(
      "one\ntwo\nthr", [] { return std::size_t{100}; }, "damaged"));
  LogPiece piece;
  CHECK(pieces.next(piece));
  CHECK(piece.text() == "one\ntwo\n");
  CHECK(pieces.problem() == "damaged");
  CHECK_FALSE(pieces.next(piece));
}

TEST_CASE("log_pieces: in an endless line reading stops", "[logs]") {
  std::int64_t asked = 0;
  const LogBytes endless{[&](char* into, std::size_t most) {
                           std::fill_n(into, most, asked == 0 ? '\n' : 'y');
                           asked += static_cast<std::int64_t>(most);
                           return most;
                         },
                         [] { return std::string(); }};
  LogPieces pieces(endless);
  LogPiece piece;
  CHECK(pieces.next(piece));
  CHECK_FALSE(pieces.endless());
  CHECK_FALSE(pieces.next(piece));
  CHECK(pieces.endless());
  CHECK(pieces.problem().empty());
  CHECK(asked < endless_line + 3 * static_cast<std::int64_t>(piece_bytes));
  CHECK_FALSE(pieces.next(piece));
}
