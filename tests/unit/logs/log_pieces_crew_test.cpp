#include "logs/log_pieces_crew.hpp"

#include <stdexcept>
#include <string>
#include <vector>

#include "support/catch.hpp"
#include "support/log_samples.hpp"

using namespace hailwright;
using namespace hailwright::detail;

namespace {

std::string numbered_rows(int count) {
  std::string text;
  for (int i = 0; i < count; ++i)
    text += "2026-06-14T10:00:00," + std::to_string(i) + ",2,x\n";
  return text;
}

/// The powers of all rows, and how many pieces they came in.
std::vector<double> powers(LogCrew& crew, const std::string& text, std::size_t& pieces_seen) {
  LogPieces pieces(test::bytes_of(text));
  LogPiece first;
  pieces.next(first);
  LogShape shape = test::small_shape();
  shape.first_row_line = 1;
  crew.begin_file(shape, pieces, std::move(first));
  std::vector<double> all;
  pieces_seen = 0;
  while (LogCrew::Job* job = crew.next()) {
    const std::vector<double>& column = job->block.column(LogRole::power);
    all.insert(all.end(), column.begin(), column.end());
    ++pieces_seen;
  }
  return all;
}

}  // namespace

TEST_CASE("log_pieces_crew: blocks come in order, with any number of threads", "[logs]") {
  const std::string text = numbered_rows(60000);
  for (const unsigned threads : {1U, 2U, 7U}) {
    CAPTURE(threads);
    LogCrew crew(threads);
    for (int file = 0; file < 3; ++file) {
      std::size_t pieces = 0;
      const std::vector<double> found = powers(crew, text, pieces);
      CHECK(pieces == text.size() / piece_bytes + 1);
      REQUIRE(found.size() == 60000);
      bool in_order = true;
      for (std::size_t i = 0; i < found.size(); ++i)
        in_order = in_order && found[i] == static_cast<double>(i);
      CHECK(in_order);
    }
  }
}

TEST_CASE("log_pieces_crew: it may end in the middle", "[logs]") {
  const std::string text = numbered_rows(60000);
  for (const unsigned threads : {1U, 3U}) {
    LogPieces pieces(test::bytes_of(text));
    LogPiece first;
    pieces.next(first);
    LogShape shape = test::small_shape();
    shape.first_row_line = 1;
    LogCrew crew(threads);
    crew.begin_file(shape, pieces, std::move(first));
    CHECK(crew.next() != nullptr);
  }
  CHECK_NOTHROW(LogCrew(5));
}

TEST_CASE("log_pieces_crew: an exception of the source comes out in its turn", "[logs]") {
  const std::string text = numbered_rows(60000);
  for (const unsigned threads : {1U, 2U, 4U}) {
    CAPTURE(threads);
    std::size_t given = 0;
    LogPieces pieces({[&](char* into, std::size_t most) {
                        if (given + most > text.size()) throw std::runtime_error("gone");
                        std::memcpy(into, text.data() + given, most);
                        given += most;
                        return most;
                      },
                      {}});
    LogPiece first;
    pieces.next(first);
    LogShape shape = test::small_shape();
    shape.first_row_line = 1;
    LogCrew crew(threads);
    crew.begin_file(shape, pieces, std::move(first));
    std::size_t blocks = 0;
    const auto read_all = [&] {
      while (crew.next() != nullptr)
        ++blocks;
    };
    CHECK_THROWS_WITH(read_all(), "gone");
    CHECK(blocks == text.size() / piece_bytes);
    CHECK(crew.next() == nullptr);
  }
}
