#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "hailwright/metrology/random.hpp"
#include "honesty/design.hpp"
#include "honesty/errors.hpp"

namespace hailwright::honesty {

/// What stands in a row of the table of readings, rounded to the steps of the displays.
struct Typed {
  double watts = 0.0;        ///< to 0.1 W
  double w_per_m2 = 0.0;     ///< to 1 W/m2
  double temperature = 0.0;  ///< of the back [degC], to 0.1
};

/// The panels as the protocol's panel file has them. All values invented.
inline constexpr double gamma_per_k = -0.0035;
inline constexpr double cell_above_back_k = 3.0;

/// Draws whole tests. Knows the physics of a reading and what is truly wrong in it, and nothing of
/// how it is judged.
class Nature {
public:
  /// The layout must outlive it.
  Nature(const Layout& layout, const Errors& errors, const Mischief& mischief);

  /// The readings of one test.
  /// @param loss  true loss of the struck panel, as a share
  std::vector<Typed> draw(RandomStream& random, double loss) const;

private:
  struct Drawn;
  struct SetupDrawn;
  Drawn draw_test(RandomStream& random) const;
  std::vector<SetupDrawn> draw_setups(RandomStream& random) const;

  const Layout& layout_;
  Errors errors_;
  Mischief mischief_;
};

}  // namespace hailwright::honesty
