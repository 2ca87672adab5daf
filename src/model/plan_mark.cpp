#include "hailwright/model/plan_mark.hpp"

#include <algorithm>

#include "hailwright/core/contract.hpp"

namespace hailwright {

namespace {
constexpr std::size_t digits = 4;
}  // namespace

std::string_view text(PlanPart part) {
  switch (part) {
  case PlanPart::decision:
    return "the decision rule";
  case PlanPart::series:
    return "the series of shots or the other stresses";
  case PlanPart::measuring:
    return "how speed and power are measured";
  case PlanPart::launching:
    return "launcher, ice or safety answers";
  }
  fail_contract("unknown part of a plan");
}

std::vector<PlanPart> changed_parts(const PlanMark& planned, const PlanMark& now) {
  std::vector<PlanPart> changed;
  for (const PlanPart part : all_plan_parts) {
    const auto i = static_cast<std::size_t>(part);
    if (planned.parts.at(i) != now.parts.at(i)) changed.push_back(part);
  }
  return changed;
}

std::string text(const PlanMark& mark) {
  std::string line;
  for (const std::string& part : mark.parts)
    line += (line.empty() ? "" : "-") + part;
  return line;
}

std::optional<PlanMark> read_plan_mark(std::string_view text) {
  PlanMark mark;
  const auto is_digit = [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); };
  if (text.size() != mark.parts.size() * (digits + 1) - 1) return std::nullopt;
  for (std::size_t i = 0; i < mark.parts.size(); ++i) {
    const std::size_t begin = i * (digits + 1);
    mark.parts.at(i) = text.substr(begin, digits);
    if (!std::all_of(mark.parts.at(i).begin(), mark.parts.at(i).end(), is_digit))
      return std::nullopt;
    if (i > 0 && text[begin - 1] != '-') return std::nullopt;
  }
  return mark;
}

}  // namespace hailwright
