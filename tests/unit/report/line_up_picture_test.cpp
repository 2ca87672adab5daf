#include "report/line_up_picture.hpp"

#include <random>

#include "support/catch.hpp"
#include "support/golden_picture.hpp"
#include "support/line_up_examples.hpp"
#include "support/markup.hpp"
#include "support/picture_boxes.hpp"
#include "support/real_files.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

Figure drawn(const LineUpExample& example) {
  return detail::rank_picture(example.view({}), example.line_up.groups.at(0), "");
}

/// Random losses with random errors and names, as a line-up would order them: each with each or, of
/// more than 12, ranks and neighbours at random.
LineUpExample random_line_up(std::mt19937_64& random) {
  std::uniform_real_distribution<double> share(0.0, 1.0);
  const auto count = static_cast<std::size_t>(2 + static_cast<int>(60.0 * share(random)));
  LineUpExample out = many_panels(count);
  for (std::size_t i = 0; i < count; ++i) {
    const double loss = share(random) * share(random) - 0.1;
    out.entries[i] = line_up_panel(i % 3 == 0 ? std::string(150, 'W') : "<b>\"A\" & =1+1 |x|", loss,
                                   0.03 * share(random) * share(random));
    LineUpRank& rank = out.line_up.groups[0].ranks[i];
    rank.first = 1 + static_cast<int>(static_cast<double>(i) * share(random));
    rank.last = static_cast<int>(count) -
                static_cast<int>(static_cast<double>(count - 1 - i) * share(random));
  }
  return out;
}

/// The five records of the demonstration, in the order of their true losses.
LineUpExample demo() {
  LineUpExample out;
  for (const char* name : {"rigid-c", "rigid-d", "rigid-g", "flex-e", "flex-f"}) {
    const Test test = read_record(std::string("protocols/demo/line-up/") + name + ".yaml");
    out.entries.push_back(line_up_entry(test, assess(test), std::string(name) + ".yaml"));
  }
  out.line_up = line_up(out.entries, LineUpQuantity::loss);
  return out;
}

}  // namespace

TEST_CASE("line-up picture: byte for byte as it was looked at") {
  check_golden("line-up-ranks", drawn(five_panels()).svg);
}

// Not run with the others: it writes what the test above compares with.
TEST_CASE("line-up picture: write the picture to look at", "[.][write-golden]") {
  write_golden("line-up-ranks", drawn(five_panels()).svg);
}

TEST_CASE("line-up picture: each panel with its number, its interval and its ranks") {
  const Figure figure = drawn(five_panels());
  const std::string words = picture_words(figure.svg);
  CHECK(words.find("Rigid A") < words.find("Rigid B"));
  CHECK_THAT(words, Contains("1.8 % (95 %: 0.9 % to 2.7 %); rank 1-3 of 5") &&
                        Contains("rank 4 of 5") && Contains("limit 5 %") &&
                        Contains("loss of power in %") && Contains("ranks left open"));
  CHECK_THAT(words, Contains("intervals that overlap do not decide"));
  CHECK_THAT(figure.description, Contains("Rigid C: 3.1 % (95 %: 2.2 % to 4.0 %); rank 2-3 of 5."));
  CHECK(figure.title == "Loss of power of 5 panels in order, with the ranks left open");
}

TEST_CASE("line-up picture: the demonstration comes out as its page tells") {
  const LineUpExample example = demo();
  REQUIRE(example.line_up.groups.size() == 1);
  CHECK(example.line_up.unranked.empty());
  CHECK_THAT(drawn(example).description,
             Contains("rank 1-3 of 5. Rigid D:") && Contains("rank 1-3 of 5. Rigid G:") &&
                 Contains("rank 1-4 of 5. Flex E:") && Contains("rank 3-4 of 5. Flex F:") &&
                 Contains("rank 5 of 5."));
  const Figure pairs = detail::pair_picture(example.view({}), example.line_up.groups[0], "");
  CHECK_THAT(pairs.description,
             Contains("Not told apart: Rigid C and Rigid D; Rigid C and Rigid G; "
                      "Rigid D and Rigid G; Rigid G and Flex E."));
}

TEST_CASE("line-up picture: a mark for each rank that is left open") {
  LineUpExample example = five_panels();
  const auto marks = [&] {
    std::size_t discs = 0;
    for (const markup::Element& e : markup::read(drawn(example).svg)) {
      const auto d = e.attributes.find("d");
      if (e.name != "path" || d == e.attributes.end()) continue;
      if (d->second.find("a5 5") != std::string::npos) ++discs;
    }
    return discs;
  };
  // 1-2, 1-3, 2-3, 4 and 5.
  CHECK(marks() == 9);
  example.line_up.groups[0].ranks[4].first = 2;
  CHECK(marks() == 12);
}

TEST_CASE("line-up picture: what is ordered by stands at the axis with its unit") {
  LineUpExample example = five_panels();
  const auto words_by = [&](LineUpQuantity order) {
    example.line_up.order = order;
    return picture_words(drawn(example).svg);
  };
  CHECK_THAT(words_by(LineUpQuantity::power),
             Contains("measured power in W") && !Contains("limit 5 %") && !Contains("a gain"));
  CHECK_THAT(words_by(LineUpQuantity::price_per_watt), Contains("in EUR/W"));
  CHECK_THAT(words_by(LineUpQuantity::share_of_rated), Contains("as rated"));
}

TEST_CASE("line-up picture: of a large group its top and bottom, and how many are not drawn") {
  const Figure figure = drawn(many_panels(100));
  const std::string words = picture_words(figure.svg);
  CHECK_THAT(words, Contains("Panel 20 ") && Contains("60 between") && Contains("Panel 81 ") &&
                        !Contains("Panel 21 ") && !Contains("Panel 80 "));
  CHECK_THAT(figure.description, Contains("60 between: not drawn; line-up.csv has every panel."));
  check_texts_apart(drawn(many_panels(2000)).svg);
}

TEST_CASE("line-up picture: a group has both pictures, a second group its own") {
  LineUpExample example = five_panels();
  example.line_up.groups.push_back(example.line_up.groups[0]);
  std::vector<std::string> ids;
  for (const Figure& figure : line_up_pictures(example.view({})))
    ids.push_back(figure.id);
  CHECK(ids == std::vector<std::string>{"ranks", "pairs", "ranks-2", "pairs-2"});
  CHECK(line_up_pictures(single_panel().view({})).empty());
}

TEST_CASE("line-up picture: random line-ups, long names, all apart and without colour") {
  std::mt19937_64 random(7);
  for (int i = 0; i < 12; ++i) {
    CAPTURE(i);
    const LineUpExample example = random_line_up(random);
    for (const LineUpQuantity order :
         {LineUpQuantity::loss, LineUpQuantity::power, LineUpQuantity::price_per_watt}) {
      LineUpExample by = example;
      by.line_up.order = order;
      const Figure figure = drawn(by);
      check_texts_apart(figure.svg);
      check_ink(figure.svg);
      CHECK_THAT(figure.svg, !Contains("<b>"));
    }
  }
}
