// Records side by side are ranked by what they hold, not by where they stand on the command line.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "hailwright/evaluate/line_up.hpp"
#include "hailwright/metrology/multiple_comparison.hpp"
#include "support/catch.hpp"
#include "support/property.hpp"

namespace hailwright::testing {

namespace {

/// A record with a number, its own error and one of an instrument that others may have used, too.
LineUpEntry drawn_entry(Draw& draw, int index) {
  LineUpEntry e;
  e.path = fmt::format("record-{}.yaml", index);
  e.traits = {{"series", draw.whole(e.path + ", kind", 0, 4) == 4 ? "35 mm" : "25 mm"}};
  LineUpNumber n;
  // No two alike: of equal ones the order given is kept.
  n.log = -draw.number(e.path + ", log", 0.0, 0.2) - 1e-9 * index;
  const double own = draw.magnitude(e.path + ", own u", 1e-4, 0.05);
  const double shared = draw.magnitude(e.path + ", u of the meter", 1e-5, 0.05);
  n.errors = {
      {"", own,
       draw.coin(e.path + ", few repeats") ? 4.0 : std::numeric_limits<double>::infinity()},
      {draw.one_of<std::string>(e.path + ", meter", {"meter/1/gain", "meter/2/gain"}), shared}};
  n.standard_u = std::hypot(own, shared);
  e.numbers[LineUpQuantity::loss] = n;
  return e;
}

std::vector<LineUpEntry> drawn_entries(Draw& draw, int most) {
  std::vector<LineUpEntry> entries;
  const int count = draw.whole("records", 2, most);
  for (int i = 1; i <= count; ++i)
    entries.push_back(drawn_entry(draw, i));
  return entries;
}

/// What a line-up says of a record, and of two.
struct Said {
  std::map<std::string, std::pair<int, int>> ranks;
  std::map<std::pair<std::string, std::string>, LineUpDifference> differences;
};

Said said_of(const std::vector<LineUpEntry>& entries) {
  Said said;
  for (const LineUpGroup& group : line_up(entries, LineUpQuantity::loss).groups) {
    for (const LineUpRank& r : group.ranks)
      said.ranks[entries[r.entry].path] = {r.first, r.last};
    for (const LineUpDifference& d : group.differences)
      said.differences[{entries[d.better].path, entries[d.worse].path}] = d;
  }
  return said;
}

}  // namespace

TEST_CASE("Property: the order of records changes no rank and no difference") {
  holds("records shuffled, up to twelve each with each and beyond", [](Draw& draw) {
    const std::vector<LineUpEntry> entries = drawn_entries(draw, 16);
    std::vector<LineUpEntry> shuffled;
    for (const std::size_t i : draw.order("order", entries.size()))
      shuffled.push_back(entries[i]);
    const Said wanted = said_of(entries);
    const Said found = said_of(shuffled);
    must(found.ranks == wanted.ranks, "the same ranks");
    must(found.differences.size() == wanted.differences.size(), "the same pairs");
    for (const auto& [pair, d] : wanted.differences) {
      const auto other = found.differences.find(pair);
      must(other != found.differences.end(), "the same pairs");
      must_be_close(other->second.p_adjusted, d.p_adjusted, 1e-12, "adjusted p");
      must_be_close(other->second.low, d.low, 1e-12, "lower end");
      must(other->second.shown == d.shown, "shown in both");
    }
  });
}

TEST_CASE("Property: ranks and adjusted p values keep within their bounds") {
  holds("p <= adjusted p <= 1; first <= last; who is shown better ranks ahead", [](Draw& draw) {
    const std::vector<LineUpEntry> entries = drawn_entries(draw, 16);
    for (const LineUpGroup& group : line_up(entries, LineUpQuantity::loss).groups) {
      const auto count = static_cast<int>(group.ranks.size());
      std::map<std::size_t, LineUpRank> rank;
      for (const LineUpRank& r : group.ranks) {
        must(1 <= r.first && r.first <= r.last && r.last <= count, "ranks from 1 to N");
        rank[r.entry] = r;
      }
      for (const LineUpDifference& d : group.differences) {
        must(d.p <= d.p_adjusted && d.p_adjusted <= 1.0, "adjusting makes no p smaller");
        must(d.low <= d.difference && d.difference <= d.high, "the interval holds its difference");
        must(d.difference >= 0.0, "the better one is not worse");
        if (!d.shown) continue;
        must(rank[d.worse].first > 1, "who is shown worse is not first");
        must(rank[d.better].last < count, "who is shown better is not last");
      }
    }
  });
}

TEST_CASE("Property: Holm keeps the order of p values and lies between p and Bonferroni") {
  holds("p <= Holm <= min(1, m p); same order; the same in any order; rising with each p",
        [](Draw& draw) {
          std::vector<double> p;
          const int count = draw.whole("number", 1, 20);
          for (int i = 0; i < count; ++i)
            p.push_back(draw.magnitude(fmt::format("p {}", i + 1), 1e-6, 1.0));
          const std::vector<double> adjusted = holm_adjusted(p);
          for (std::size_t i = 0; i < p.size(); ++i) {
            must(p[i] <= adjusted[i], "not below p");
            must(adjusted[i] <= std::min(1.0, static_cast<double>(p.size()) * p[i]),
                 "not above Bonferroni");
            for (std::size_t j = 0; j < p.size(); ++j)
              must(p[i] > p[j] || adjusted[i] <= adjusted[j], "in the same order");
          }
          std::vector<double> shuffled, wanted;
          for (const std::size_t i : draw.order("order", p.size())) {
            shuffled.push_back(p[i]);
            wanted.push_back(adjusted[i]);
          }
          must(holm_adjusted(shuffled) == wanted, "the same in any order");
          const auto one = static_cast<std::size_t>(draw.whole("one", 0, count - 1));
          p[one] = std::min(1.0, p[one] * draw.magnitude("times", 1.0, 1e3));
          const std::vector<double> larger = holm_adjusted(p);
          for (std::size_t i = 0; i < p.size(); ++i)
            must(larger[i] >= adjusted[i], "no adjusted p falls when a p rises");
        });
}

}  // namespace hailwright::testing
