#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "hailwright/core/quantity.hpp"
#include "hailwright/safety/gate.hpp"
#include "hailwright/safety/yardsticks.hpp"

namespace hailwright::gate {

/// What eye protection of the questions is proved with, rounded down to 0.01 J so that no demand
/// comes too late; nothing for another word. A shield over goggles counts as the shield.
std::optional<Energy> proved_with(std::string_view eyewear_word);
/// Whether it closes the eyes in from the side as well: goggles, alone or under a shield.
bool has_side_cover(std::string_view eyewear_word);
/// Whether it is a face shield that is worn over goggles.
bool is_shield_over_goggles(std::string_view eyewear_word);

/// One plan with the answers to it, as the rules of the gate see it. Refers to what it is made of.
class Case {
public:
  Case(const SafetyAnswers& answers, const PlanDangers& dangers, long today)
      : answers_(answers), dangers_(dangers), today_(today) {}

  [[nodiscard]] const PlanDangers& dangers() const { return dangers_; }
  [[nodiscard]] Energy energy() const { return dangers_.muzzle_energy; }
  [[nodiscard]] long today() const { return today_; }

  [[nodiscard]] const SafetyAnswer* answer(std::string_view block, std::string_view key) const;
  /// Whether this is answered, and by this word.
  [[nodiscard]] bool is(std::string_view block, std::string_view key, std::string_view word) const;
  [[nodiscard]] std::optional<Pressure> pressure() const;
  [[nodiscard]] std::optional<Volume> volume() const;

  template <class... Kinds>
  [[nodiscard]] bool launched_by(Kinds... kinds) const {
    return ((dangers_.launcher == kinds) || ...);
  }
  /// Balls fly along, not down.
  [[nodiscard]] bool flies_forward() const { return dangers_.launcher != Launcher::drop; }
  /// A launcher lets the ball off, not a hand.
  [[nodiscard]] bool by_machine() const {
    return !launched_by(Launcher::drop, Launcher::throw_by_hand);
  }
  /// Gas under pressure drives the ball, or is answered to be there.
  [[nodiscard]] bool holds_gas() const;
  /// From here a ball is let off remotely, and only before a backstop.
  [[nodiscard]] bool is_serious() const;
  /// The ball carries as much as the eye protection under this key is proved with, or more, or as
  /// much as none is proved with; true also when that is not known.
  [[nodiscard]] bool outdoes_eyewear(std::string_view key) const;
  /// Highest known voltage of a panel when cold.
  [[nodiscard]] std::optional<Voltage> highest_voltage() const;
  [[nodiscard]] bool a_voltage_is_unknown() const;
  /// A panel reaches this voltage when cold, or cannot be said not to.
  [[nodiscard]] bool voltage_from(Voltage limit) const;

private:
  const SafetyAnswers& answers_;
  const PlanDangers& dangers_;
  long today_;
};

}  // namespace hailwright::gate
