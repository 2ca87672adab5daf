#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace hailwright {

/// The parts of a protocol that a mark tells apart.
enum class PlanPart { decision, series, measuring, launching };
inline constexpr std::array<PlanPart, 4> all_plan_parts{PlanPart::decision, PlanPart::series,
                                                        PlanPart::measuring, PlanPart::launching};
/// "the decision rule", "the series of shots", ...: for sentences.
std::string_view text(PlanPart part);

/// What shows later whether a protocol is still the one that was planned with: four hexadecimal
/// digits for each of its parts. They depend on what the file says, not on its order, comments or
/// units. One change in 65 536 goes unseen; it guards against slips, not against forgery.
struct PlanMark {
  std::array<std::string, all_plan_parts.size()> parts;
  friend bool operator==(const PlanMark&, const PlanMark&) = default;
};
/// "7f3a-9c01-52de-0b44"
std::string text(const PlanMark& mark);

/// The parts in which two marks differ.
std::vector<PlanPart> changed_parts(const PlanMark& planned, const PlanMark& now);

/// A mark with the day on which it was printed.
struct PlannedLine {
  std::string date;  ///< ISO 8601
  PlanMark mark;
};
/// Reads what `text(mark)` writes, nothing else.
std::optional<PlanMark> read_plan_mark(std::string_view text);

}  // namespace hailwright
