#include "input/protocol_mark.hpp"

#include <array>
#include <map>
#include <optional>
#include <utility>

#include "hailwright/core/digest.hpp"
#include "hailwright/core/quantity_text.hpp"

namespace hailwright::input {

namespace {

// Where a text could be of several measures (degC), the first decides; the same text, or the same
// amount in another unit of that measure, always takes the same one.
constexpr std::array measures{
    Measure::length,     Measure::mass,        Measure::density,
    Measure::time,       Measure::frame_rate,  Measure::speed,
    Measure::energy,     Measure::power,       Measure::irradiance,
    Measure::pressure,   Measure::voltage,     Measure::current,
    Measure::resistance, Measure::temperature, Measure::temperature_coefficient,
    Measure::ratio,      Measure::angle,       Measure::force};

/// A word is no amount in any measure: most keys and answers need no closer look.
bool begins_with_a_letter(const std::string& text) {
  return !text.empty() &&
         ((text[0] >= 'a' && text[0] <= 'z') || (text[0] >= 'A' && text[0] <= 'Z'));
}

std::optional<std::string> plain_amount(const std::string& written) {
  constexpr int exact_digits = 12;  // more than anybody types, less than the rounding of a product
  if (begins_with_a_letter(written)) return std::nullopt;
  for (const Measure measure : measures) {
    const TextResult<Amount> amount = read_amount(written, measure);
    if (amount.value) {
      return significant(amount.value->si, exact_digits) + " " + std::string(name(measure));
    }
  }
  return std::nullopt;
}

std::string plain_text(const std::string& written) {
  if (auto amount = plain_amount(written)) return *std::move(amount);
  std::string text;
  for (const char c : written) {
    const bool blank = c == ' ' || c == '\t' || c == '\n';
    if (!blank) {
      text += c;
    } else if (!text.empty() && text.back() != ' ') {
      text += ' ';
    }
  }
  return text;
}

/// Every value as its length and its text, so that no text can pass for a structure.
std::string framed(const std::string& text) {
  return std::to_string(text.size()) + ":" + text;
}

PlanPart part_of(std::string_view key) {
  static const std::map<std::string_view, PlanPart> parts{{"decide", PlanPart::decision},
                                                          {"series", PlanPart::series},
                                                          {"speed", PlanPart::measuring},
                                                          {"tools", PlanPart::measuring},
                                                          {"measure", PlanPart::measuring}};
  const auto found = parts.find(key);
  return found == parts.end() ? PlanPart::launching : found->second;
}

/// The members of a map by their keys, each in its plain form.
using Members = std::map<std::string, std::string>;

std::string map_form(const Members& members) {
  std::string form;
  for (const auto& [key, value] : members)
    form += framed(key) + value;
  return "{" + form + "}";
}

}  // namespace

// NOLINTNEXTLINE(misc-no-recursion): `deepest_nesting` bounds it
std::string plain_form(const Node& node) {
  std::string form;
  switch (node.kind) {
  case NodeKind::broken:
    return "~";
  case NodeKind::text:
    return framed(plain_text(node.text));
  case NodeKind::list:
    for (const Node& item : node.items)
      form += plain_form(item);
    return "[" + form + "]";
  case NodeKind::map: {
    Members members;
    for (const Entry& entry : node.entries)
      members.emplace(plain_text(entry.key), plain_form(entry.value));
    return map_form(members);
  }
  }
  return form;
}

namespace {

/// What is done and what is answered about it are different parts of the plan: the answers are
/// given anew for each day. Of each stress the answers alone, or all but them.
std::string stresses_form(const Node& stresses, bool answers) {
  if (stresses.kind != NodeKind::list) return plain_form(stresses);
  std::string form;
  for (const Node& stress : stresses.items) {
    Members members;
    for (const Entry& entry : stress.entries)
      if ((entry.key == "safety") == answers)
        members.emplace(plain_text(entry.key), plain_form(entry.value));
    form += stress.kind == NodeKind::map ? map_form(members) : plain_form(stress);
  }
  return "[" + form + "]";
}

}  // namespace

PlanMark mark_of(const Node& protocol) {
  constexpr std::size_t digits = 4;
  std::array<Members, all_plan_parts.size()> parts;
  const auto add = [&](PlanPart part, const Entry& entry, std::string form) {
    parts.at(static_cast<std::size_t>(part)).emplace(plain_text(entry.key), std::move(form));
  };
  for (const Entry& entry : protocol.entries) {
    if (entry.key == "stresses") {
      add(PlanPart::series, entry, stresses_form(entry.value, false));
      add(PlanPart::launching, entry, stresses_form(entry.value, true));
    } else {
      add(part_of(entry.key), entry, plain_form(entry.value));
    }
  }
  PlanMark mark;
  for (std::size_t i = 0; i < parts.size(); ++i)
    mark.parts.at(i) = sha256_hex(map_form(parts.at(i))).substr(0, digits);
  return mark;
}

}  // namespace hailwright::input
