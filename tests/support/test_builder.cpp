#include "support/test_builder.hpp"

#include <cmath>

#include "hailwright/core/contract.hpp"

namespace hailwright::testing {

namespace {

SeriesPlan series(const char* name, const char* grade, int first_place, int places) {
  SeriesPlan plan;
  plan.name = name;
  plan.target.label = grade;
  plan.target.grade = find_grade(grade);
  expects(plan.target.grade != nullptr, "a published grade");
  plan.target.diameter = plan.target.grade->diameter;
  plan.target.mass = plan.target.grade->mass;
  plan.target.speed = *plan.target.grade->speed;
  plan.place_radius = Length::from_si(0.025);
  for (int i = 0; i < places; ++i) {
    plan.places.push_back({std::to_string(first_place + i), std::nullopt, {}});
  }
  return plan;
}

void add_shots(Test& t, std::size_t index) {
  const SeriesPlan& plan = t.protocol.series[index];
  for (std::size_t p = 0; p < plan.places.size(); ++p) {
    Shot shot;
    shot.number = static_cast<int>(t.record.shots.size()) + 1;
    shot.series = index;
    shot.place = p;
    shot.landing = Landing::in;
    shot.out = Time::from_si(5.0);
    shot.angle = Angle{};
    shot.mass = plan.target.mass;
    shot.diameters = {plan.target.diameter};
    shot.speed = plan.target.speed;
    t.record.shots.push_back(shot);
  }
}

Look look_after(std::size_t series_index) {
  Look look;
  look.after = series_index;
  return look;
}

}  // namespace

Finding seen(const char* word, const char* where) {
  Finding f;
  f.kind = find_finding_kind(word);
  expects(f.kind != nullptr, "a word of the closed list");
  f.where = where;
  return f;
}

TestBuilder::TestBuilder() {
  Protocol& p = test.protocol;
  p.decide.limit = percent(5);
  p.series.push_back(series("small", "IEC 61215 25 mm", 1, 3));
  p.launch.kind = Launcher::sling;
  p.speed.by = SpeedSource::each_shot;
  Stated<Speed> speed;
  speed.shape = Shape::normal;
  speed.relative = percent(1);
  p.speed.error = speed;
  p.speed.to_panel = Length{};
  Stated<Mass> scales;
  scales.absolute = Mass::from_si(0.00005);
  p.tools.scales.error = scales;
  p.tools.scales.step = Mass::from_si(0.0001);
  p.measure.compare = Comparison::control_panel;
  p.measure.meters = 1;
  p.measure.maximum_power = MaximumPower::sweep;
  p.measure.redone = std::vector<Redone>(all_redone.begin(), all_redone.end());
  test.record.title = "Panel A";
  test.record.date = "2026-06-14";
  test.record.air = TemperaturePoint::from_celsius(20.0);
  test.record.control = Panel{};
  test.record.control_same_model = true;
  test.record.conditions.same_tools = true;
  Look start;
  start.start = true;
  test.record.looks = {start, look_after(0)};
  add_shots(test, 0);
  stages_ = {{{StageKind::before, 0}, 4, 0.0}, {{StageKind::after, 0}, 4, 0.0}};
}

TestBuilder& TestBuilder::loss(double share) {
  stages_.back().loss = share;
  return *this;
}
TestBuilder& TestBuilder::setup_scatter(double share) {
  scatter_ = share;
  return *this;
}
TestBuilder& TestBuilder::setups(int before, int after) {
  stages_.front().setups = before;
  stages_.back().setups = after;
  return *this;
}
TestBuilder& TestBuilder::rounds(int n) {
  rounds_ = n;
  return *this;
}
TestBuilder& TestBuilder::same_panel() {
  test.protocol.measure.compare = Comparison::same_panel;
  test.record.control.reset();
  return *this;
}
TestBuilder& TestBuilder::siblings(int units, double spread) {
  test.protocol.measure.compare = Comparison::sibling_panel;
  test.record.control.reset();
  for (int u = 1; u <= units; ++u)
    test.record.siblings.push_back({{}, "U" + std::to_string(u)});
  stages_.erase(stages_.begin(), stages_.end() - 1);
  unit_spread_ = spread;
  return *this;
}
TestBuilder& TestBuilder::timed() {
  timed_ = true;
  return *this;
}
TestBuilder& TestBuilder::second_series() {
  test.protocol.series.push_back(series("large", "IEC 61215 35 mm", 4, 2));
  add_shots(test, 1);
  test.record.looks.push_back(look_after(1));
  return *this;
}
TestBuilder& TestBuilder::stage_after(std::size_t series_index, double loss) {
  stages_.insert(stages_.end() - 1, {{StageKind::after_series, series_index}, 4, loss});
  return *this;
}
TestBuilder& TestBuilder::stage_after_stress(std::size_t stress, double loss) {
  stages_.push_back({{StageKind::after_stress, stress}, 4, loss});
  return *this;
}
TestBuilder& TestBuilder::no_final_stage() {
  stages_.pop_back();
  return *this;
}
TestBuilder& TestBuilder::later(double loss) {
  stages_.push_back({{StageKind::later, 0}, 4, loss});
  return *this;
}
TestBuilder& TestBuilder::look(std::size_t after_series, std::vector<Finding> saw) {
  for (Look& l : test.record.looks) {
    if (!l.start && !l.after_stress && l.after == after_series) l.saw = std::move(saw);
  }
  return *this;
}
TestBuilder& TestBuilder::no_look_at_start() {
  std::erase_if(test.record.looks, [](const Look& l) { return l.start; });
  return *this;
}
TestBuilder& TestBuilder::no_looks_after() {
  std::erase_if(test.record.looks, [](const Look& l) { return !l.start; });
  return *this;
}
TestBuilder& TestBuilder::speed(double mps) {
  for (Shot& s : test.record.shots)
    s.speed = Speed::from_si(mps);
  return *this;
}

void TestBuilder::add_round(Test& t, Reading reading, double struck_watts) const {
  const auto add = [&](Role role, std::size_t unit, double watts) {
    reading.role = role;
    reading.unit = unit;
    reading.power = Power::from_si(watts);
    t.record.readings.push_back(reading);
  };
  const double rise = 1.0 + 0.001 * (*reading.round - 1);
  add(Role::struck, 0, struck_watts * rise);
  if (t.record.control) add(Role::control, 0, 81.0 * rise);
  const auto m = static_cast<double>(t.record.siblings.size());
  for (std::size_t u = 0; u < t.record.siblings.size(); ++u) {
    // Evenly spaced numbers 0, 1, ..., m - 1 have the variance m (m + 1) / 12.
    const double place = static_cast<double>(u) - (m - 1.0) / 2.0;
    add(Role::sibling, u,
        80.0 * std::exp(unit_spread_ * place / std::sqrt(m * (m + 1.0) / 12.0)) * rise);
  }
}

void TestBuilder::add_readings(Test& t) const {
  for (const Stage& stage : stages_) {
    for (int k = 0; k < stage.setups; ++k) {
      Setup setup;
      setup.stage = stage.id;
      setup.number = k + 1;
      const bool before = stage.id.kind == StageKind::before;
      const bool after_stress = stage.id.kind == StageKind::after_stress;
      const std::string stage_word = before ? "before " : after_stress ? "after stress " : "after ";
      setup.name = stage_word + std::to_string(k + 1);
      setup.date = stage.id.kind == StageKind::later ? "2026-08-01" : t.record.date;
      t.record.setups.push_back(setup);
      // Alternating deviations with the wanted standard deviation over an even number of set-ups.
      const double n = stage.setups;
      const double deviation =
          scatter_ * (k % 2 == 0 ? 1.0 : -1.0) * (n > 1 ? std::sqrt((n - 1.0) / n) : 0.0);
      for (int r = 0; r < rounds_; ++r) {
        Reading reading;
        reading.setup = t.record.setups.size() - 1;
        reading.round = r + 1;
        if (timed_) reading.minute = (before ? 9 : 15) * 60 + 30 * k + r;
        reading.irradiance = Irradiance::from_si(850.0 + r);
        reading.temperature = TemperaturePoint::from_celsius(45.0);
        add_round(t, reading, 80.0 * std::exp(deviation) * (1.0 - stage.loss));
      }
    }
  }
}

Test TestBuilder::build() const {
  Test t = test;
  add_readings(t);
  return t;
}

}  // namespace hailwright::testing
