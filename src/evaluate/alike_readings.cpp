#include "evaluate/alike_readings.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "hailwright/metrology/dual.hpp"

namespace hailwright {

namespace {

using Sloped = Dual<error_slots>;
using Link = PowerModel::Link;

bool same_link(const Link& a, const Link& b) {
  return a.slot == b.slot && a.input == b.input;
}

/// Terms on one side of the comparison that share all their errors and the panel's own figures.
struct Group {
  const PowerModel::Term* first;
  std::vector<const PowerModel::Term*> terms;

  [[nodiscard]] bool takes(const PowerModel::Term& term) const {
    return std::signbit(term.weight) == std::signbit(first->weight) &&
           term.reading.gamma == first->reading.gamma &&
           term.reading.cell_above_back == first->reading.cell_above_back &&
           std::equal(term.links.begin(), term.links.end(), first->links.begin(),
                      first->links.end(), same_link);
  }
};

/// The readings of a group stand in a row, so that only the last few groups need looking at.
std::vector<Group> groups_of(const std::vector<PowerModel::Term>& terms) {
  constexpr std::size_t looked_back = 8;
  std::vector<Group> groups;
  for (const PowerModel::Term& term : terms) {
    const auto open = groups.rbegin();
    const auto end = open + static_cast<std::ptrdiff_t>(std::min(looked_back, groups.size()));
    const auto found = std::find_if(open, end, [&](const Group& g) { return g.takes(term); });
    if (found != end) {
      found->terms.push_back(&term);
    } else {
      groups.push_back({&term, {&term}});
    }
  }
  return groups;
}

/// Where a reading belongs: the number of its step in power, irradiance and temperature.
using Cell = std::tuple<int, int, int>;

Cell cell_of(const NormalisedReading& reading) {
  constexpr double step = 0.1;         // of a logarithm
  constexpr double temperature = 5.0;  // K
  const auto number = [](double steps) { return static_cast<int>(std::floor(steps)); };
  return {number(std::log(reading.power.si()) / step),
          number(std::log(reading.irradiance.si()) / step),
          number(reading.back.celsius() / temperature)};
}

/// One term of their whole weight, at the weighted mean of what was read.
PowerModel::Term mean_of(const std::vector<const PowerModel::Term*>& terms) {
  PowerModel::Term mean = *terms.front();
  double weight = 0.0;
  double power = 0.0;
  double irradiance = 0.0;
  double celsius = 0.0;
  for (const PowerModel::Term* term : terms) {
    weight += term->weight;
    power += term->weight * term->reading.power.si();
    irradiance += term->weight * term->reading.irradiance.si();
    celsius += term->weight * term->reading.back.celsius();
  }
  mean.weight = weight;
  mean.reading.power = Power::from_si(power / weight);
  mean.reading.irradiance = Irradiance::from_si(irradiance / weight);
  mean.reading.back = TemperaturePoint::from_celsius(celsius / weight);
  return mean;
}

/// Value and first derivatives of ln P' at no errors.
Sloped log_power(const NormalisedReading& reading) {
  std::array<Sloped, error_slots> errors;
  for (std::size_t s = 0; s < error_slots; ++s)
    errors[s] = Sloped::variable(0.0, s);
  return log_normalised_power(reading, errors);
}

void add_merged(const std::vector<const PowerModel::Term*>& terms, MergedReadings& merged) {
  PowerModel::Term one = mean_of(terms);
  Sloped missing = log_power(one.reading) * -one.weight;
  for (const PowerModel::Term* term : terms)
    missing = missing + log_power(term->reading) * term->weight;
  merged.constant += missing.value;
  for (const Link& link : one.links)
    merged.in_lambda[link.input] += missing.slope[static_cast<std::size_t>(link.slot)];
  merged.terms.push_back(std::move(one));
}

}  // namespace

MergedReadings merge_alike(const PowerModel& model) {
  MergedReadings merged{{}, std::vector<double>(model.inputs.size(), 0.0), 0.0};
  const std::vector<Group> groups = groups_of(model.terms);
  const auto is_long = [](const Group& g) { return g.terms.size() > most_kept_single; };
  if (std::none_of(groups.begin(), groups.end(), is_long)) {
    merged.terms = model.terms;
    return merged;
  }
  for (const Group& group : groups) {
    if (!is_long(group)) {
      for (const PowerModel::Term* term : group.terms)
        merged.terms.push_back(*term);
      continue;
    }
    std::map<Cell, std::vector<const PowerModel::Term*>> cells;
    for (const PowerModel::Term* term : group.terms)
      cells[cell_of(term->reading)].push_back(term);
    for (const auto& [cell, terms] : cells)
      add_merged(terms, merged);
  }
  return merged;
}

}  // namespace hailwright
