#pragma once

namespace hailwright::honesty {

/// How large the errors of a test are. The protocol states one set of them, nature draws another;
/// where the two are equal, the protocol tells the truth. Shares are of the power or of the
/// reading. What is said to be within something is drawn evenly in it, all else from a normal
/// distribution of this standard deviation.
struct Errors {
  // Seen by repeats; the protocol states `setup` only where there are none.
  double setup = 0.005;    ///< of one panel, from set-up to set-up
  double reading = 0.002;  ///< of single readings
  double unit = 0.008;     ///< from unit to unit of one model
  // Not seen by repeats, hence stated.
  double day = 0.0;      ///< sky of a day on the struck panel, or on its difference to the others
  double stage = 0.003;  ///< drift of the struck panel between the stages, or against the control
  double meter_gain = 0.01;       ///< within; the same in the whole test
  double meter_digits = 2.0;      ///< within so many steps of 0.1 W, the same in the whole test
  double meter_between = 0.0005;  ///< within; anew in each stage
  double sun_gain = 0.05;         ///< within; the same in the whole test
  double sun_between = 0.005;     ///< within; anew in each stage
  double thermometer_k = 2.0;     ///< within; the same in the whole test
  double each_time_k = 0.5;       ///< within; each time the probe is put on
  double gamma_per_k = 0.0005;    ///< within, of the coefficient
  double cell_k = 1.0;            ///< within, of the cells' excess over the back at 1000 W/m2
};

/// What nature does beside, of which no protocol says anything.
struct Mischief {
  double all_panels = 0.0;    ///< change of all panels alike between the stages, standard deviation
  bool mounted_once = false;  ///< set-ups of a stage were one: their error is drawn once
  /// Share of the set-ups that go wrong, their error then five times as large.
  double gone_wrong = 0.0;
  double per_hour = 0.0;  ///< steady change of the struck panel over the test, standard deviation
};

}  // namespace hailwright::honesty
