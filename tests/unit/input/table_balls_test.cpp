#include "input/table.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::input;

namespace {

struct Read {
  Diagnostics notes;
  std::vector<BallKind> balls;
  explicit Read(std::string text) { balls = read_balls({1, 1, 1, std::move(text)}, notes); }
  [[nodiscard]] const Diagnostic& only_note() const {
    for (const Diagnostic& d : notes.items())
      UNSCOPED_INFO(d.code << " " << d.message);
    REQUIRE(notes.items().size() == 1);
    return notes.items().front();
  }
};

}  // namespace

TEST_CASE("table balls: balls of a kind weighed together") {
  const Read r("kind,count,together g,diameter mm,diameter mm,diameter mm,note\n"
               "small,10,75.6,25.2,24.9,25.1,three balls measured\n"
               "large,10,204.6,35.1,,35.2,\n"
               ",,20.4,35.0,35.0,35.0,\n");
  REQUIRE(r.notes.empty());
  REQUIRE(r.balls.size() == 3);
  CHECK(r.balls[0].kind == "small");
  CHECK(r.balls[0].count == 10);
  CHECK_THAT(r.balls[0].together->si(), WithinRel(0.0756, 1e-12));
  REQUIRE(r.balls[0].diameters.size() == 3);
  CHECK_THAT(r.balls[0].diameters[1].si(), WithinRel(0.0249, 1e-12));
  CHECK(r.balls[0].note == "three balls measured");
  CHECK(r.balls[1].diameters.size() == 2);
  CHECK(r.balls[2].kind == "large");
  CHECK(r.balls[2].count == 1);
  CHECK(r.balls[2].origin.line == 4);
}

TEST_CASE("table balls: separator, decimal mark and order of the columns change nothing") {
  const Read comma("kind,count,together g,diameter mm,note\nsmall,10,75.6,25.2,\"a, b\"\n");
  const std::string text =
      GENERATE("kind;count;together g;diameter mm;note\nsmall;10;75,6;25,2;a, b\n",
               "kind\tcount\ttogether g\tdiameter mm\tnote\nsmall\t10\t75.6\t25.2\ta, b\n",
               "kind\tcount\ttogether g\tdiameter mm\tnote\nsmall\t10\t75,6\t25,2\ta, b\n",
               "note;diameter mm;together g;kind;count\na, b;25.2;75.6;small;10\n",
               "diameter cm,count,note,kind,together kg\n2.52,10,\"a, b\",small,0.0756\n");
  CAPTURE(text);
  const Read other(text);
  REQUIRE(comma.notes.empty());
  REQUIRE(other.notes.empty());
  REQUIRE(other.balls.size() == 1);
  const BallKind& a = comma.balls.at(0);
  const BallKind& b = other.balls.at(0);
  CHECK(b.kind == a.kind);
  CHECK(b.count == a.count);
  CHECK(b.note == a.note);
  CHECK_THAT(b.together->si(), WithinRel(a.together->si(), 1e-14));
  REQUIRE(b.diameters.size() == 1);
  CHECK_THAT(b.diameters[0].si(), WithinRel(a.diameters[0].si(), 1e-14));
}

// Source (read: a module maker's claim, one type struck twice; the
// densities are computed there from mass and diameter of a sphere).
TEST_CASE(
    "table balls: a maker's 34.40 mm, 20.444 g ball is not ice, the 35.10 mm, 20.497 g ball is") {
  const Read wrong("kind,mass g,diameter mm\nlarge,20.444,34.40\n");
  CHECK(wrong.only_note().code == "T22");
  CHECK(wrong.only_note().severity == Severity::warning);
  CHECK_THAT(wrong.only_note().message, Contains("0.959 g/cm3"));
  CHECK_THAT(wrong.only_note().message, Contains("the mass or the diameter is wrong"));
  CHECK(wrong.balls.size() == 1);

  const Read right("kind,mass g,diameter mm\nlarge,20.497,35.10\n");
  CHECK(right.notes.empty());  // 0.905 g/cm3 there
}

TEST_CASE("table balls: density is that of the mean ball") {
  // 25 mm sphere: 8.1812 cm3; 0.87 and 0.93 g/cm3 are 7.118 g and 7.609 g.
  CHECK(Read("kind,count,together g,diameter mm,diameter mm\ns,10,75.6,24.0,26.0\n").notes.empty());
  CHECK(Read("kind,count,together g,diameter mm\ns,10,71.3,25\n").notes.empty());
  CHECK(Read("kind,count,together g,diameter mm\ns,10,71.1,25\n").only_note().code == "T22");
  CHECK(Read("kind,count,together g,diameter mm\ns,10,76.0,25\n").notes.empty());
  CHECK(Read("kind,count,together g,diameter mm\ns,10,76.2,25\n").only_note().code == "T22");
  CHECK(Read("kind,count,together g\ns,10,999\n").notes.empty());
}

TEST_CASE("table balls: mistakes in balls") {
  struct Case {
    const char* text;
    const char* code;
    int line, column;
  };
  const auto c = GENERATE(values<Case>({
      {"kind,mass g,together g\na,7.5,7.5\n", "T15", 2, 3},
      {"kind,count,mass g\na,10,75\n", "T15", 2, 6},
      {"kind,count\na,0\n", "T14", 2, 3},
      {"kind,mass g\n,7\n", "T12", 2, 1},
      {"kind,mass g\na,0\n", "T14", 2, 3},
      {"kind,mass g\na,1001\n", "T14", 2, 3},
      {"kind,count,together kg\na,2,2.1\n", "T14", 2, 5},
      {"kind,diameter mm\na,4.9\n", "T14", 2, 3},
      {"kind,diameter mm\na,151\n", "T14", 2, 3},
      {"mass g\n7\n", "T08", 1, 1},
      {"kind,weight g\na,7\n", "T06", 1, 6},
      {"kind,mass g\na,7,\"b\n", "T04", 2, 5},
  }));
  CAPTURE(c.text);
  const Read r(c.text);
  CHECK(r.only_note().code == c.code);
  CHECK(r.only_note().where.line == c.line);
  CHECK(r.only_note().where.column == c.column);
}

TEST_CASE("table balls: the ends of the ranges are taken") {
  CHECK(Read("kind,diameter mm\na,5\nb,150\n").notes.empty());
  CHECK(Read("kind,mass kg\na,1\n").notes.empty());
  CHECK(Read("kind,count,together kg\na,2,2\n").notes.empty());
}
