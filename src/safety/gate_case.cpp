#include "safety/gate_case.hpp"

#include <algorithm>
#include <cmath>

#include "hailwright/core/quantity_text.hpp"

namespace hailwright::gate {

namespace {

constexpr std::string_view over_goggles = " over goggles";

/// An amount of the launcher that is more than zero.
template <class Q>
std::optional<Q> amount(const SafetyAnswer* answer) {
  if (answer == nullptr) return std::nullopt;
  const auto read = read_quantity<Q>(answer->text);
  if (!read.value || !(read.value->si() > 0.0)) return std::nullopt;
  return read.value;
}

}  // namespace

std::optional<Energy> proved_with(std::string_view eyewear_word) {
  if (is_shield_over_goggles(eyewear_word)) eyewear_word.remove_suffix(over_goggles.size());
  for (const Yardstick& one : eyewear()) {
    std::string name(one.name);
    name.erase(std::remove(name.begin(), name.end(), ','), name.end());
    if (name == eyewear_word) return Energy::from_si(std::floor(one.energy.si() * 100.0) / 100.0);
  }
  return std::nullopt;
}

bool has_side_cover(std::string_view eyewear_word) {
  return eyewear_word.starts_with("goggles ") || is_shield_over_goggles(eyewear_word);
}

bool is_shield_over_goggles(std::string_view eyewear_word) {
  return eyewear_word.starts_with("face shield ") && eyewear_word.ends_with(over_goggles);
}

const SafetyAnswer* Case::answer(std::string_view block, std::string_view key) const {
  const auto in_block = answers_.blocks.find(std::string(block));
  if (in_block == answers_.blocks.end()) return nullptr;
  const auto found = in_block->second.find(std::string(key));
  return found == in_block->second.end() ? nullptr : &found->second;
}

bool Case::is(std::string_view block, std::string_view key, std::string_view word) const {
  const SafetyAnswer* given = answer(block, key);
  return given != nullptr && given->text == word;
}

std::optional<Pressure> Case::pressure() const {
  return amount<Pressure>(answer("launcher", "pressure"));
}

std::optional<Volume> Case::volume() const {
  return amount<Volume>(answer("launcher", "volume"));
}

bool Case::holds_gas() const {
  if (launched_by(Launcher::compressed_air)) return true;
  return answer("launcher", "pressure_part") != nullptr && !is("launcher", "pressure_part", "none");
}

bool Case::is_serious() const {
  return energy() >= CautionLimits::serious;
}

bool Case::outdoes_eyewear(std::string_view key) const {
  const SafetyAnswer* worn = answer("eyes", key);
  if (worn == nullptr) return true;
  const auto proved = proved_with(worn->text);
  return !proved || energy() >= *proved || energy() >= CautionLimits::eyewear_high;
}

std::optional<Voltage> Case::highest_voltage() const {
  std::optional<Voltage> highest;
  for (const auto& one : dangers_.cold_voltages) {
    if (one && (!highest || *one > *highest)) highest = one;
  }
  return highest;
}

bool Case::a_voltage_is_unknown() const {
  const auto& all = dangers_.cold_voltages;
  return all.empty() ||
         std::any_of(all.begin(), all.end(), [](const auto& one) { return !one.has_value(); });
}

bool Case::voltage_from(Voltage limit) const {
  return a_voltage_is_unknown() || *highest_voltage() >= limit;
}

}  // namespace hailwright::gate
