#include "support/line_up_examples.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace hailwright::testing {

namespace {

/// Of the standard normal distribution, two-sided.
double two_sided_p(double z) {
  return std::erfc(z / std::sqrt(2.0));
}

/// By halving: its p is so small.
double normal_factor(double p) {
  double low = 0.0, high = 40.0;
  for (int i = 0; i < 100; ++i) {
    const double middle = 0.5 * (low + high);
    (two_sided_p(middle) > p ? low : high) = middle;
  }
  return low;
}

/// With one error, its own.
LineUpNumber number(double value, double u) {
  return {std::log(value), {{"", u}}, u};
}

LineUpDifference difference(const std::vector<LineUpEntry>& entries, LineUpQuantity order,
                            std::size_t better, std::size_t worse, double pairs) {
  const LineUpNumber& a = entries[better].numbers.at(order);
  const LineUpNumber& b = entries[worse].numbers.at(order);
  LineUpDifference d{better, worse, a.log - b.log, std::hypot(a.standard_u, b.standard_u)};
  d.p = two_sided_p(d.difference / d.standard_u);
  const double reach = normal_factor(line_up_risk / pairs) * d.standard_u;
  d.low = d.difference - reach;
  d.high = d.difference + reach;
  return d;
}

/// The step-down procedure of Holm, as stated in MEASUREMENT M15.
void adjust(std::vector<LineUpDifference>& all) {
  std::vector<LineUpDifference*> by_p;
  for (LineUpDifference& d : all)
    by_p.push_back(&d);
  std::stable_sort(by_p.begin(), by_p.end(), [](auto* a, auto* b) { return a->p < b->p; });
  double floor = 0.0;
  for (std::size_t i = 0; i < by_p.size(); ++i) {
    floor = std::max(floor, std::min(1.0, static_cast<double>(by_p.size() - i) * by_p[i]->p));
    by_p[i]->p_adjusted = floor;
    by_p[i]->shown = floor <= line_up_risk;
  }
}

/// The first `count` entries as a group, which stand in order already.
LineUpGroup group_of(const std::vector<LineUpEntry>& entries, std::size_t count) {
  LineUpGroup group;
  group.traits = entries.front().traits;
  group.each_with_each = count <= line_up_each_with_each;
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  for (std::size_t i = 0; i < count; ++i) {
    for (std::size_t k = i + 1; k < count; ++k) {
      if (group.each_with_each || i == 0 || k == i + 1) pairs.emplace_back(i, k);
    }
  }
  const double all_pairs = 0.5 * static_cast<double>(count * (count - 1));
  for (const auto& [i, k] : pairs)
    group.differences.push_back(difference(entries, LineUpQuantity::loss, i, k, all_pairs));
  if (group.each_with_each) {
    adjust(group.differences);
  } else {
    for (LineUpDifference& d : group.differences) {
      d.p_adjusted = std::min(1.0, all_pairs * d.p);
      d.shown = d.p_adjusted <= line_up_risk;
    }
  }
  const int all = static_cast<int>(count);
  for (std::size_t i = 0; i < count; ++i)
    group.ranks.push_back({i, 1, all});
  for (const LineUpDifference& d : group.differences) {
    if (!d.shown) continue;
    ++group.ranks[d.worse].first;
    --group.ranks[d.better].last;
  }
  return group;
}

void add_numbers(LineUpEntry& e, double power_u) {
  const double watts = 0.97 * e.rated->si();
  e.numbers[LineUpQuantity::power] = number(watts, power_u);
  e.numbers[LineUpQuantity::share_of_rated] = number(0.97, power_u);
  e.numbers[LineUpQuantity::power_per_area] = number(watts / e.area->si(), power_u);
  e.numbers[LineUpQuantity::power_per_mass] = number(watts / e.weight->si(), power_u);
  e.numbers[LineUpQuantity::price_per_watt] = number(e.price->amount / watts, power_u);
  e.numbers[LineUpQuantity::shading_loss] = number(0.52, 0.02);
}

void reprice(LineUpEntry& e, double price) {
  e.price = Money{price, "EUR"};
  e.lowest_price = Money{price - 10.0, "EUR"};
  e.highest_price = Money{price + 15.0, "EUR"};
  e.numbers[LineUpQuantity::price_per_watt] =
      number(price / std::exp(e.numbers.at(LineUpQuantity::power).log), 0.03);
}

void make_damaged(LineUpEntry& e) {
  e.words = {{"small", "IEC 61215 25 mm", Word::withstood, 11, 11},
             {"large", "IEC 61215 35 mm", Word::damaged, 5, 4}};
  e.hardest_withstood = 0;
  e.mildest_damaged = 1;
  e.answers = LossAnswers{Answer::yes, Answer::yes, false};
}

}  // namespace

LineUpView LineUpExample::view(std::vector<std::string> columns) const {
  return {"Five small panels", &entries, &line_up, std::move(columns)};
}

LineUpEntry line_up_panel(const std::string& name, double loss, double u) {
  LineUpEntry e;
  e.title = name;
  e.panel = name;
  e.path = name + ".yaml";
  std::replace(e.path.begin(), e.path.end(), ' ', '-');
  e.date = "2026-06-14";
  e.serial = "S-1";
  e.build = "framed glass";
  e.connector = "round plugs, one a pole";
  e.rated = Power::from_si(100.0);
  e.area = Area::from_si(0.51);
  e.weight = Mass::from_si(6.9);
  e.lead_length = Length::from_si(0.9);
  e.price = Money{89.0, "EUR"};
  e.lowest_price = Money{79.0, "EUR"};
  e.highest_price = Money{104.0, "EUR"};
  e.words = {{"small", "IEC 61215 25 mm", Word::withstood, 11, 11},
             {"large", "IEC 61215 35 mm", Word::withstood, 5, 5}};
  e.hardest_withstood = 1;
  e.traits = {{"series", "IEC 61215 25 mm at 11 places; IEC 61215 35 mm at 5 places"},
              {"comparison", "with a control panel"},
              {"limit", "5 %"},
              {"stages", "after all series"}};
  LossEstimate estimate;
  estimate.lambda = std::log1p(-loss);
  estimate.u_lambda = u;
  estimate.degrees_of_freedom = std::numeric_limits<double>::infinity();
  estimate.expanded = 1.959964 * u;
  e.loss = estimate;
  e.stage = "after";
  e.limit = percent(5.0);
  e.smallest_shown = Ratio::from_si(1.0 - std::exp(-3.24 * u));
  e.answers = decide_loss(estimate, *e.limit);
  e.shade = "lower left cell covered whole";
  add_numbers(e, 0.03);
  e.numbers[LineUpQuantity::loss] = {estimate.lambda, {{"", u}}, u};
  e.cautions = {&caution("broken_glass"), &caution("heavy_metals")};
  return e;
}

LineUpExample five_panels() {
  LineUpExample out;
  out.entries = {line_up_panel("Rigid A", 0.006, 0.0045), line_up_panel("Rigid B", 0.018, 0.0045),
                 line_up_panel("Rigid C", 0.031, 0.0045), line_up_panel("Flex D", 0.09, 0.007),
                 line_up_panel("Flex E", 0.14, 0.008)};
  reprice(out.entries[1], 110.0);
  reprice(out.entries[2], 95.0);
  for (const std::size_t i : {3U, 4U}) {
    out.entries[i].build = "flexible";
    make_damaged(out.entries[i]);
  }
  out.line_up.groups = {group_of(out.entries, out.entries.size())};
  return out;
}

LineUpExample eight_panels() {
  LineUpExample out = five_panels();
  LineUpEntry other = line_up_panel("Rigid F", 0.01, 0.0045);
  other.words.pop_back();
  other.hardest_withstood = 0;
  other.traits[0].text = "IEC 61215 25 mm at 11 places";
  LineUpEntry unread = line_up_panel("Rigid G", 0.01, 0.0045);
  unread.gap = LineUpGap::not_compared;
  unread.loss.reset();
  unread.smallest_shown.reset();
  unread.answers.reset();
  unread.numbers.clear();
  unread.price.reset();
  unread.lowest_price.reset();
  unread.highest_price.reset();
  unread.connector.clear();
  unread.shade.reset();
  LineUpEntry risen = line_up_panel("Rigid H", -0.05, 0.0045);
  risen.gap = LineUpGap::not_valid;
  risen.loss.reset();
  risen.smallest_shown.reset();
  risen.answers.reset();
  risen.numbers.erase(LineUpQuantity::loss);
  out.entries.insert(out.entries.end(), {other, unread, risen});
  out.line_up.unranked = {{5, {other.traits[0]}, false}, {6, {}, true}, {7, {}, true}};
  return out;
}

LineUpExample many_panels(std::size_t count) {
  LineUpExample out;
  for (std::size_t i = 0; i < count; ++i) {
    const double loss = 0.3 * static_cast<double>(i) / static_cast<double>(count);
    out.entries.push_back(line_up_panel("Panel " + std::to_string(i + 1), loss, 0.005));
  }
  out.line_up.groups = {group_of(out.entries, count)};
  return out;
}

LineUpExample single_panel() {
  LineUpExample out;
  out.entries = {line_up_panel("Rigid A", 0.006, 0.0045)};
  out.line_up.unranked = {{0, {}, false}};
  return out;
}

}  // namespace hailwright::testing
