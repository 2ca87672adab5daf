#include "support/struck_panel.hpp"

#include <algorithm>

#include "hailwright/model/place_layout.hpp"
#include "support/aim_examples.hpp"
#include "support/test_builder.hpp"

namespace hailwright::testing {

Test panel_to_strike() {
  Test test = TestBuilder().second_series().build();
  test.record.title = "Rigid A";
  test.record.panel = framed_36_cells();
  test.protocol.series = eleven_and_five().series;
  take_positions(placed(test.protocol, test.record.panel), test.protocol);
  test.record.shots.clear();
  return test;
}

Shot throw_at(const Test& test, std::size_t series, std::size_t place, Landing landing) {
  const Target& target = test.protocol.series.at(series).target;
  Shot shot;
  shot.series = series;
  shot.place = place;
  shot.landing = landing;
  shot.out = Time::from_si(5.0);
  shot.mass = target.mass;
  shot.diameters = {target.diameter};
  shot.speed = 1.03 * target.speed;
  return shot;
}

Shot throw_of_unknown_energy(const Test& test, std::size_t series, std::size_t place) {
  Shot shot = throw_at(test, series, place, Landing::in);
  shot.speed.reset();
  shot.mass.reset();
  shot.diameters.clear();
  return shot;
}

void add_throw(Test& test, Shot shot) {
  shot.number = static_cast<int>(test.record.shots.size()) + 1;
  test.record.shots.push_back(std::move(shot));
}

Test randomly_struck(std::mt19937_64& random, int throws) {
  Test test = panel_to_strike();
  std::uniform_real_distribution<double> share(0.0, 1.0);
  for (int i = 0; i < throws; ++i) {
    const std::size_t series = 3 * i < 2 * throws ? 0 : 1;
    const std::size_t places = test.protocol.series[series].places.size();
    const double kind = share(random);
    Shot shot = throw_at(test, series, random() % places,
                         kind < 0.4   ? Landing::in
                         : kind < 0.7 ? Landing::offset
                         : kind < 0.8 ? Landing::at
                         : kind < 0.9 ? Landing::miss
                                      : Landing::broke);
    if (shot.landing == Landing::offset)
      shot.where = mm(80.0 * share(random) - 40.0, 80.0 * share(random) - 40.0);
    if (shot.landing == Landing::at) shot.where = mm(1020.0 * share(random), 510.0 * share(random));
    if (share(random) < 0.1) shot.speed.reset();
    add_throw(test, std::move(shot));
  }
  return test;
}

}  // namespace hailwright::testing
