#include "input/schema_values.hpp"

#include <fmt/format.h>

#include <array>

#include "hailwright/model/safety_questions.hpp"
#include "input/schema_patterns.hpp"

namespace hailwright::input::value {

namespace {

using Definitions = std::vector<std::pair<std::string, SchemaNode>>;

/// The forms of statements that occur in files.
constexpr std::array forms{
    StatedForm{Measure::power, true, true},
    StatedForm{Measure::energy, true, true},
    StatedForm{Measure::irradiance, true, true},
    StatedForm{Measure::voltage, true, true},
    StatedForm{Measure::current, true, true},
    StatedForm{Measure::mass, true, true},
    StatedForm{Measure::mass, true, false},
    StatedForm{Measure::length, true, true},
    StatedForm{Measure::length, true, false},
    StatedForm{Measure::speed, true, false},
    StatedForm{Measure::time, true, false},
    StatedForm{Measure::ratio, true, false},
    StatedForm{Measure::temperature_difference, false, false},
    StatedForm{Measure::temperature_coefficient, false, false},
};

/// "temperature difference": a measure without its article.
std::string word_of(Measure measure) {
  const std::string_view with_article = name(measure);
  return std::string(with_article.substr(with_article.find(' ') + 1));
}

/// A length is an amount, and a speed a mapping of the protocol too.
std::string amount_name(Measure measure) {
  return fmt::format("amount of {}", word_of(measure));
}

std::string accuracy_name(const StatedForm& form) {
  return name_for("accuracy", form) + (form.digits ? " or digits" : "");
}

SchemaNode with_example(SchemaNode node, std::string_view example) {
  node.set("examples", SchemaNode::list({example}));
  return node;
}

SchemaNode text_of(const std::string& pattern, std::string description) {
  return SchemaNode::object(
      {{"description", std::move(description)}, {"type", "string"}, {"pattern", pattern}});
}

/// "mm, cm, m, in, ft"
std::string units_in_words(Measure measure) {
  std::string all;
  for (const Unit& unit : units()) {
    if (unit.measure == measure) all += fmt::format("{}{}", all.empty() ? "" : ", ", unit.symbol);
  }
  return all;
}

void define_plain(Definitions& all) {
  SchemaNode any = SchemaNode::object({{"description", "A text"}});
  any.set("type", SchemaNode::texts({"string", "number", "boolean"}));
  any.set("not", SchemaNode::object({{"const", answer_to_come}}));
  all.emplace_back("text", any);
  all.emplace_back("date", text_of(pattern::date(), "Year, month and day: 2026-06-14"));
}

void define_amounts(Definitions& all) {
  for (const Measure measure :
       {Measure::length, Measure::volume, Measure::mass, Measure::density, Measure::time,
        Measure::frame_rate, Measure::speed, Measure::energy, Measure::power, Measure::irradiance,
        Measure::pressure, Measure::voltage, Measure::current, Measure::temperature,
        Measure::temperature_difference, Measure::temperature_coefficient, Measure::ratio,
        Measure::angle, Measure::force}) {
    all.emplace_back(
        amount_name(measure),
        text_of(pattern::amount(measure),
                fmt::format("{} with its unit: {}", name(measure), units_in_words(measure))));
  }
}

void define_statements(Definitions& all) {
  for (const StatedForm& form : forms) {
    all.emplace_back(accuracy_name(form),
                     text_of(pattern::accuracy(form),
                             "A half-width, never exceeded; terms joined by +; or unknown"));
    const bool twice = form.measure == Measure::length || form.measure == Measure::mass;
    const bool again = twice && form.digits;
    if (again) continue;
    all.emplace_back(name_for("size", form),
                     text_of(pattern::size(form), "One size of an error, with its unit"));
    all.emplace_back(name_for("within", form),
                     text_of(pattern::within(form), "A size, and how often it holds"));
  }
}

}  // namespace

SchemaNode text() {
  return defined("text");
}

SchemaNode table() {
  return text();
}

SchemaNode texts() {
  return either({text(), list_of(text(), 0)});
}

SchemaNode date() {
  return with_example(defined("date"), "2026-06-14");
}

SchemaNode setup_name() {
  return matching("^\\s*(?:before|baseline|after|later)(?:\\s[^]*)?$",
                  {"before 1", "after 1", "after small 1", "baseline 1", "later 1"});
}

SchemaNode yes_no() {
  return words({"yes", "no"});
}

SchemaNode words(const std::vector<std::string>& all) {
  return SchemaNode::object({{"enum", SchemaNode::texts(all)}});
}

SchemaNode words_list(const std::vector<std::string>& all) {
  SchemaNode list = list_of(words(all), 0);
  list.set("uniqueItems", true);
  return list;
}

SchemaNode count(int low, int high) {
  return SchemaNode::object({{"type", SchemaNode::texts({"integer", "string"})},
                             {"minimum", low},
                             {"maximum", high},
                             {"pattern", pattern::count()}});
}

SchemaNode factor() {
  return SchemaNode::object({{"type", SchemaNode::texts({"number", "string"})},
                             {"minimum", 1},
                             {"pattern", pattern::number()}});
}

SchemaNode amount(Measure measure, std::string_view example) {
  return with_example(defined(amount_name(measure)), example);
}

SchemaNode stated_value(Measure measure, std::string_view example) {
  return either({amount(measure, example), SchemaNode::object({{"const", "unknown"}}),
                 defined(name_with_error(measure))});
}

SchemaNode accuracy(const StatedForm& form, std::string_view example) {
  return with_example(defined(accuracy_name(form)), example);
}

SchemaNode size(const StatedForm& form, std::string_view example) {
  return with_example(defined(name_for("size", form)), example);
}

SchemaNode within(const StatedForm& form, std::string_view example) {
  return with_example(defined(name_for("within", form)), example);
}

SchemaNode matching(const std::string& pattern, const std::vector<std::string>& examples) {
  return SchemaNode::object(
      {{"type", "string"}, {"pattern", pattern}, {"examples", SchemaNode::texts(examples)}});
}

SchemaNode defined(std::string_view name) {
  std::string pointer = "#/$defs/";
  for (const char c : name)
    pointer += c == ' ' ? '_' : c;
  return SchemaNode::object({{"$ref", pointer}});
}

SchemaNode list_of(SchemaNode item, int least) {
  SchemaNode list = SchemaNode::object({{"type", "array"}, {"items", std::move(item)}});
  if (least > 0) list.set("minItems", least);
  return list;
}

SchemaNode either(std::vector<SchemaNode> ways) {
  return SchemaNode::object({{"anyOf", SchemaNode::list(std::move(ways))}});
}

std::string name_for(std::string_view what, const StatedForm& form) {
  return fmt::format("{} of {}", what, word_of(form.measure));
}

std::string name_with_error(Measure measure) {
  return fmt::format("{} with its error", word_of(measure));
}

Definitions definitions() {
  Definitions all;
  define_plain(all);
  define_amounts(all);
  define_statements(all);
  return all;
}

}  // namespace hailwright::input::value
