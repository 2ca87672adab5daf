#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/citation.hpp"
#include "hailwright/core/quantity.hpp"

namespace hailwright {

enum class Projectile { ice, steel, polyamide };
std::string_view text(Projectile projectile);

/// How one printed field of a row is known.
enum class FieldStatus { read, from_memory, derived, not_printed };
std::string_view text(FieldStatus status);

/// One row of a published impact test: which ball, how heavy, how fast.
struct Grade {
  std::string_view scheme;  ///< "IEC 61215"
  std::string_view name;    ///< "25 mm", "HW3"; with the scheme it names the row in a protocol
  Projectile projectile;
  Length diameter;
  Mass mass;
  std::optional<Speed> speed;     ///< absent where the speed is the result of the test
  std::optional<Energy> printed;  ///< energy as the source prints it
  FieldStatus diameter_status, mass_status, speed_status, energy_status;
  ReadStatus status;               ///< of the row as a whole
  std::optional<Ratio> tolerance;  ///< on diameter, mass and speed, where one was read
  std::string_view citation;       ///< id of a Citation
  std::string_view note;

  /// Half the mass times the speed squared; absent without a speed.
  [[nodiscard]] std::optional<Energy> energy() const;
};

/// All published rows whose numbers somebody could read or remembers, in the order of the schemes.
/// Rows from memory say so in `status`, and every output repeats it.
std::span<const Grade> impact_grades();

/// A document that sets grades whose numbers nobody here could read; a protocol that asks for one
/// is told why it is not offered.
struct UnreadScheme {
  std::string_view scheme;
  std::string_view why;
};
std::span<const UnreadScheme> unread_schemes();

/// The row that a protocol names: "IEC 61215 25 mm", "HW3", "ASTM E1038 25 mm wind 20". Case
/// (ASCII) and repeated spaces do not matter; without its scheme a name is taken only if no other
/// row has it ("HW3", but not "25 mm"). nullptr when there is none.
const Grade* find_grade(std::string_view text);

/// "IEC 61215 25 mm": what `find_grade` takes, for every row.
std::string grade_label(const Grade& grade);

std::span<const Citation> impact_grade_sources();

}  // namespace hailwright
