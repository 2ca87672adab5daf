#include "cli/option_reader.hpp"

#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::cli;

namespace {

constexpr Bounds lengths{0.0, 2.0, "more than 0 m, up to 2 m", true};

std::string messages(const OptionReader& reader) {
  std::string text;
  for (const Diagnostic& note : reader.notes.items())
    text += std::string(note.code) + " " + note.message + "\n";
  return text;
}

}  // namespace

TEST_CASE("option_reader: what was not given is nothing in silence") {
  OptionReader reader;
  CHECK_FALSE(reader.quantity<Length>("length", "", lengths));
  CHECK_FALSE(reader.number("length", "", lengths));
  CHECK_FALSE(reader.count("length", "", lengths));
  CHECK_FALSE(reader.accuracy<Length>("length", ""));
  CHECK(reader.notes.empty());
}

TEST_CASE("option_reader: amounts come in SI and in their range") {
  OptionReader reader;
  CHECK_THAT(reader.quantity<Length>("length", "800mm", lengths)->si(), WithinAbs(0.8, 1e-15));
  CHECK_THAT(*reader.number("length", "1.5", lengths), WithinAbs(1.5, 0.0));
  CHECK(*reader.count("length", "2", lengths) == 2);
  CHECK_THAT(reader.accuracy<Length>("length", "2%")->relative.si(), WithinAbs(0.02, 1e-15));
  CHECK_THAT(reader.accuracy<Length>("length", "5mm")->absolute.si(), WithinAbs(0.005, 1e-15));
  CHECK(reader.notes.empty());
}

TEST_CASE("option_reader: every mistake names its option") {
  OptionReader reader;
  reader.quantity<Length>("length", "3m", lengths);
  reader.quantity<Length>("length", "0m", lengths);
  reader.quantity<Length>("length", "3", lengths);
  reader.count("threads", "2.5", lengths);
  reader.count("threads", "3", lengths);
  const std::string text = messages(reader);
  CHECK_THAT(text, Contains("R01 --length is 3m, and must be more than 0 m, up to 2 m"));
  CHECK_THAT(text, Contains("R01 --length is 0m"));
  CHECK_THAT(text, Contains("U02 --length: "));
  CHECK_THAT(text, Contains("U14 --threads: "));
  CHECK_THAT(text, Contains("R01 --threads is 3"));
}
