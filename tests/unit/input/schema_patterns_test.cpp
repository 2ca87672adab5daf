// Expressions against the readers whose texts they describe, on texts put together at random from
// the pieces that such texts are made of, good and bad ones. Seeds are fixed.
#include "input/schema_patterns.hpp"

#include <functional>
#include <random>
#include <regex>

#include "hailwright/tables/impact_grades.hpp"
#include "input/sides_text.hpp"
#include "input/stated_text.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::input;

namespace {

const std::vector<std::string> number_pieces{"0",   "5",   "12", "007",  "1",   ".",
                                             "-",   "+",   "−",  "e3",   "E-2", "e",
                                             "0x1", "nan", ",",  "3.50", ".25", "1e999"};
const std::vector<std::string> blank_pieces{" ", "  ", "\t", "\u00A0", "\u202F", ""};

/// Texts in which the pieces of a good one are exchanged, doubled or left out now and then.
class Texts {
public:
  explicit Texts(unsigned seed) : random_(seed) {}

  std::string of(const std::vector<std::vector<std::string>>& good,
                 const std::vector<std::string>& odd) {
    std::string text;
    for (const auto& choices : good) {
      const unsigned luck = draw(20);
      if (luck == 0) continue;
      if (luck == 1) text += one_of(odd);
      text += luck == 2 ? one_of(odd) : one_of(choices);
    }
    return text;
  }

private:
  unsigned draw(std::size_t below) { return static_cast<unsigned>(random_() % below); }
  const std::string& one_of(const std::vector<std::string>& all) { return all[draw(all.size())]; }
  std::mt19937 random_;
};

/// What a reader said of a text: nothing, or the code of its first problem.
using Reader = std::function<std::string(const std::string&)>;

/// Counts, so that a test which saw only one sort of text fails.
struct Outcome {
  int taken = 0;
  int refused = 0;
};

/// The expression takes what the reader takes, and else only what ends in one of `unseen`.
Outcome compare(const std::string& pattern, const Reader& reader,
                const std::vector<std::string>& texts, const std::vector<std::string>& unseen) {
  const std::regex expression(pattern);
  Outcome outcome;
  for (const std::string& text : texts) {
    const std::string code = reader(text);
    const bool matches = std::regex_match(text, expression);
    CAPTURE(pattern, text, code);
    if (code.empty()) {
      CHECK(matches);
      ++outcome.taken;
    } else if (matches) {
      CHECK(std::find(unseen.begin(), unseen.end(), code) != unseen.end());
    } else {
      ++outcome.refused;
    }
  }
  return outcome;
}

template <class T>
std::string code_of(const TextResult<T>& result) {
  return result.problem ? std::string(result.problem->code) : std::string();
}

std::vector<std::string> symbols() {
  std::vector<std::string> all;
  for (const Unit& unit : units())
    all.emplace_back(unit.symbol);
  return all;
}

std::vector<std::string> symbols_of(Measure measure) {
  std::vector<std::string> all;
  for (const Unit& unit : units()) {
    if (unit.measure == measure) all.emplace_back(unit.symbol);
  }
  return all;
}

std::string code_of_notes(const Diagnostics& notes) {
  return notes.empty() ? std::string() : std::string(notes.items().front().code);
}

Node text_node(const std::string& text) {
  Node node;
  node.kind = NodeKind::text;
  node.text = text;
  return node;
}

const std::vector<std::string> numbers{"25", "0.5", "1", ".75", "2.", "1e-1", "30", "100"};
const std::vector<std::string> no_more{"", "", "", "", "", "", " ", " about"};

}  // namespace

TEST_CASE("schema_patterns: amounts, measure by measure, as they are read") {
  unsigned seed = 1;
  for (const Measure measure : {Measure::length, Measure::mass, Measure::speed, Measure::power,
                                Measure::irradiance, Measure::temperature, Measure::ratio,
                                Measure::temperature_coefficient, Measure::resistance}) {
    Texts texts(seed++);
    std::vector<std::string> odd = number_pieces;
    for (const std::string& symbol : symbols())
      odd.push_back(symbol);
    std::vector<std::string> all;
    for (int i = 0; i < 600; ++i) {
      all.push_back(texts.of({blank_pieces,
                              {"", "", "", "-", "+", "−"},
                              numbers,
                              blank_pieces,
                              symbols_of(measure),
                              no_more},
                             odd));
    }
    const Outcome outcome = compare(
        pattern::amount(measure),
        [&](const std::string& text) { return code_of(read_amount(text, measure)); }, all, {"U10"});
    CHECK(outcome.taken > 100);
    CHECK(outcome.refused > 100);
  }
}

TEST_CASE("schema_patterns: counts, numbers and money") {
  Texts texts(11);
  std::vector<std::string> all;
  for (int i = 0; i < 2000; ++i) {
    all.push_back(texts.of(
        {{"", " "}, numbers, blank_pieces, {"", "", "EUR", "USD", "eur"}, no_more}, number_pieces));
  }
  CHECK(compare(pattern::count(), [](const std::string& t) { return code_of(read_count(t)); }, all,
                {"U10"})
            .taken > 50);
  CHECK(compare(pattern::number(), [](const std::string& t) { return code_of(read_number(t)); },
                all, {"U10"})
            .taken > 50);
  CHECK(compare(pattern::money(), [](const std::string& t) { return code_of(read_money(t)); }, all,
                {"U10"})
            .taken > 50);
}

TEST_CASE("schema_patterns: sides and grids") {
  Texts texts(21);
  std::vector<std::string> all;
  for (int i = 0; i < 3000; ++i) {
    all.push_back(texts.of({numbers,
                            {" ", ""},
                            {"x", "×"},
                            {" ", "  "},
                            numbers,
                            {"", "", " x 35", "x2x3"},
                            {" ", ""},
                            {"mm", "m", "in", ""},
                            no_more},
                           number_pieces));
  }
  for (const auto& [least, most] : {std::pair(2, 2), std::pair(2, 3)}) {
    const auto low = static_cast<std::size_t>(least);
    const auto high = static_cast<std::size_t>(most);
    const Outcome outcome =
        compare(pattern::sides(low, high),
                [&](const std::string& t) { return code_of(read_sides(t, low, high)); }, all,
                {"U10", "R01"});
    CHECK(outcome.taken > 100);
    CHECK(outcome.refused > 100);
  }
  CHECK(
      compare(pattern::grid(), [](const std::string& t) { return code_of(read_grid(t)); }, all, {})
          .taken > 20);
}

// Found by review: the schema let "0 x 4" and "300 x 4" pass.
TEST_CASE("schema_patterns: a grid has from 1 to 200 cells each way") {
  std::vector<std::string> all;
  for (int cells = 0; cells <= 1100; ++cells) {
    all.push_back(std::to_string(cells) + " x 4");
    all.push_back("4 x " + std::to_string(cells));
  }
  CHECK(
      compare(pattern::grid(), [](const std::string& t) { return code_of(read_grid(t)); }, all, {})
          .taken == 400);
}

TEST_CASE("schema_patterns: statements of an error, form by form") {
  unsigned seed = 31;
  for (const StatedForm& form :
       {StatedForm{Measure::power, true, true}, StatedForm{Measure::length, true, false},
        StatedForm{Measure::ratio, true, false},
        StatedForm{Measure::temperature_difference, false, false}}) {
    Texts texts(seed++);
    std::vector<std::string> ends = symbols_of(form.measure);
    for (const char* more : {"%", "%", "digits", "digit", "digits"})
      ends.emplace_back(more);
    std::vector<std::string> odd = number_pieces;
    for (const char* more : {"±", "+/-", "unknown", ",", "95 %"})
      odd.emplace_back(more);
    std::vector<std::string> maker;
    std::vector<std::string> certificate;
    for (int i = 0; i < 1500; ++i) {
      maker.push_back(
          texts.of({numbers, {" ", ""}, ends, {"", "", " + 2 %", "+ 3 digits", " +"}}, odd));
      certificate.push_back(texts.of(
          {numbers, {" ", ""}, ends, {",", ", ", " , "}, {"95 %", "99.7 %", "50 %"}}, odd));
    }
    maker.emplace_back("unknown");
    const std::vector<std::string> unseen{"U10", "R01", "R04", "U24", "R05"};
    const auto accuracy = [&](const std::string& text) {
      Diagnostics notes;
      read_accuracy(text_node(text), "'accuracy'", form, notes);
      return code_of_notes(notes);
    };
    const auto statement = [&](std::string_view key) {
      return [&form, key](const std::string& text) {
        Node map;
        map.kind = NodeKind::map;
        map.entries.push_back({std::string(key), {}, text_node(text)});
        Diagnostics notes;
        const MapReader reader(map, {"this tool", stated_keys}, {}, notes);
        read_statement(reader, form);
        return code_of_notes(notes);
      };
    };
    CHECK(compare(pattern::accuracy(form), accuracy, maker, unseen).taken > 50);
    CHECK(compare(pattern::size(form), statement("spread"), maker, unseen).taken > 30);
    CHECK(compare(pattern::within(form), statement("within"), certificate, unseen).taken > 30);
  }
}

TEST_CASE("schema_patterns: dates") {
  Texts texts(41);
  std::vector<std::string> all;
  for (int i = 0; i < 2000; ++i) {
    all.push_back(texts.of({{"2026", "0000", "0001"},
                            {"-"},
                            {"06", "13", "02", "12"},
                            {"-"},
                            {"14", "30", "31", "00", "32"},
                            {"", "", "", " "}},
                           number_pieces));
  }
  // Only that a month is shorter than 31 days is not seen.
  const auto reader = [](const std::string& text) {
    if (is_iso_date(text)) return std::string();
    const bool late = text.ends_with("-29") || text.ends_with("-30") || text.ends_with("-31");
    return std::string(late ? "late" : "R03");
  };
  CHECK(compare(pattern::date(), reader, all, {"late"}).taken > 100);
}

TEST_CASE("schema_patterns: names of grades without regard to case and blanks") {
  std::vector<std::string> labels;
  for (const Grade& grade : impact_grades())
    labels.push_back(grade_label(grade));
  const std::regex expression(pattern::any_of_plain(labels));
  for (const std::string& label : labels) {
    std::string shouted = "  ";
    for (const char c : label)
      shouted +=
          c == ' ' ? std::string(" \t ") : std::string(1, static_cast<char>(std::toupper(c)));
    CAPTURE(label, shouted);
    REQUIRE(find_grade(shouted) != nullptr);
    CHECK(std::regex_match(label, expression));
    CHECK(std::regex_match(shouted, expression));
    CHECK_FALSE(std::regex_match(label + "0", expression));
    CHECK_FALSE(std::regex_match("x" + label, expression));
  }
}
