#pragma once

#include <string>
#include <vector>

#include "hailwright/model/record.hpp"

namespace hailwright::testing {

/// A complete, well-behaved test in memory, to be bent by each case: one series at the IEC 25 mm
/// grade with three places, control panel, four set-ups before and four after of three rounds,
/// looks before and after, no loss. All values invented.
class TestBuilder {
public:
  TestBuilder();

  /// Multiplies the struck panel's power after the shots.
  TestBuilder& loss(double share);
  /// Standard deviation of the set-ups' difference, spread deterministically (+ - + -).
  TestBuilder& setup_scatter(double share);
  TestBuilder& setups(int before, int after);
  TestBuilder& rounds(int n);
  TestBuilder& same_panel();
  /// Unstruck units in place of the control, read in every set-up of the last stage, which is then
  /// the only one. Their powers lie evenly apart with this standard deviation, as the struck one
  /// has it in the middle.
  TestBuilder& siblings(int units, double spread);
  /// Readings with times: rounds a minute apart, set-ups half an hour, stages from 9:00 and 15:00.
  TestBuilder& timed();
  /// A second series, at the IEC 35 mm grade with two places.
  TestBuilder& second_series();
  /// Readings after this series instead of one stage after all.
  TestBuilder& stage_after(std::size_t series, double loss);
  /// Readings after this stress of the protocol, as the last stage written.
  TestBuilder& stage_after_stress(std::size_t stress, double loss);
  TestBuilder& no_final_stage();
  /// Readings 48 days after the shots; to be asked for after all other stages.
  TestBuilder& later(double loss);
  TestBuilder& look(std::size_t after_series, std::vector<Finding> saw);
  TestBuilder& no_look_at_start();
  TestBuilder& no_looks_after();
  TestBuilder& speed(double mps);

  Test build() const;
  Test test;  ///< everything but readings and set-ups; bend it directly

private:
  struct Stage {
    StageId id;
    int setups;
    double loss;
  };
  void add_readings(Test& t) const;
  void add_round(Test& t, Reading reading, double struck_watts) const;
  std::vector<Stage> stages_;
  double scatter_ = 0.003;
  double unit_spread_ = 0.0;
  int rounds_ = 3;
  bool timed_ = false;
};

Finding seen(const char* word, const char* where);

}  // namespace hailwright::testing
