#include "logs/series_sums.hpp"

#include <cmath>
#include <fstream>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include "hailwright/metrology/statistics.hpp"
#include "support/catch.hpp"
#include "unit/logs/made_rows.hpp"

using namespace hailwright;
using detail::ColumnTotal;
using detail::SeriesSums;

namespace {

constexpr std::int64_t gap_us = 10 * made::second_us;

std::vector<std::int64_t> each_second(std::size_t rows) {
  std::vector<std::int64_t> time_us;
  for (std::size_t i = 0; i < rows; ++i)
    time_us.push_back(static_cast<std::int64_t>(i) * made::second_us);
  return time_us;
}

SeriesSums sums_of(const std::vector<double>& values) {
  return SeriesSums::of(each_second(values.size()), values, 0, values.size(), gap_us);
}

/// The same from parts of random lengths, some empty.
SeriesSums from_parts(const std::vector<std::int64_t>& time_us, const std::vector<double>& values,
                      std::mt19937& random) {
  SeriesSums all;
  for (std::size_t at = 0; at < values.size();) {
    const std::size_t end = std::min(values.size(), at + random() % 90);
    all.append(SeriesSums::of(time_us, values, at, end, gap_us), gap_us);
    at = end;
  }
  return all;
}

/// NIST Statistical Reference Datasets, as tests/reference/nist_strd_test.cpp reads them.
std::vector<double> nist_values(const std::string& name) {
  std::ifstream file(std::string(HAILWRIGHT_SOURCE_DIR) + "/tests/reference/nist_strd/" + name +
                     ".dat");
  REQUIRE(file);
  std::vector<double> values;
  std::string line;
  for (int number = 1; std::getline(file, line); ++number) {
    std::istringstream text(line);
    if (number > 60)
      for (double v = 0.0; text >> v;)
        values.push_back(v);
  }
  return values;
}

/// Autoregressive series of first order: x' = r x + noise, of standard deviation 1 about 50.
std::vector<double> autoregressive(double r, std::size_t rows, unsigned seed) {
  std::mt19937 random(seed);
  std::normal_distribution<double> noise(0.0, std::sqrt(1.0 - r * r));
  std::vector<double> values;
  double x = std::normal_distribution<double>()(random);
  for (std::size_t i = 0; i < rows; ++i) {
    values.push_back(50.0 + x);
    x = r * x + noise(random);
  }
  return values;
}

}  // namespace

// Certified values and status: tests/reference/nist_strd_test.cpp, typed here from the files again.
// The tolerances are those of that test: what doubles can hold.
TEST_CASE("series sums: NIST mean, sd and lag-1 autocorrelation from parts") {
  struct Row {
    const char* name;
    double mean, sd, lag1, mean_rel, sd_rel, lag1_abs;
  };
  std::mt19937 random(9);
  for (const Row& row :
       {Row{"Lew", -177.435000000000, 277.332168044316, -0.307304800605679, 1e-14, 1e-12, 1e-12},
        Row{"Lottery", 518.958715596330, 291.699727470969, -0.120948622967393, 1e-14, 1e-12, 1e-12},
        Row{"Mavro", 2.00185600000000, 0.000429123454003053, 0.937989183438248, 1e-14, 1e-12,
            1e-12},
        Row{"Michelso", 299.852400000000, 0.0790105478190518, 0.535199668621283, 1e-14, 1e-12,
            1e-12},
        Row{"PiDigits", 4.53480000000000, 2.86733906028871, -0.00355099287237972, 1e-14, 1e-12,
            1e-12},
        Row{"NumAcc1", 10000002, 1, -0.5, 1e-14, 1e-12, 1e-12},
        Row{"NumAcc2", 1.2, 0.1, -0.999, 1e-14, 1e-12, 1e-12},
        Row{"NumAcc3", 1000000.2, 0.1, -0.999, 1e-14, 2e-9, 2e-8},
        Row{"NumAcc4", 10000000.2, 0.1, -0.999, 1e-14, 2e-8, 2e-7}}) {
    const std::vector<double> values = nist_values(row.name);
    for (const SeriesSums& sums :
         {sums_of(values), from_parts(each_second(values.size()), values, random)}) {
      const SeriesMean mean = sums.result();
      CAPTURE(row.name, mean.mean, mean.sd, mean.lag1);
      CHECK(mean.count == static_cast<std::int64_t>(values.size()));
      CHECK_THAT(mean.mean, WithinRel(row.mean, row.mean_rel));
      CHECK_THAT(mean.sd, WithinRel(row.sd, row.sd_rel));
      CHECK_THAT(mean.lag1, WithinAbs(row.lag1, row.lag1_abs));
    }
  }
}

TEST_CASE("series sums: as numpy has it") {
  std::vector<double> p;
  for (int i = 0; i < 1000; ++i)
    p.push_back(100.0 + (i * 7919) % 1000 / 8.0);
  const SeriesMean mean = sums_of(p).result();
  CHECK_THAT(mean.mean, WithinRel(162.4375, 1e-15));             // numpy 1.24, p.mean()
  CHECK_THAT(mean.sd, WithinRel(36.102429511968673, 1e-14));     // numpy 1.24, p.std(ddof=1)
  CHECK_THAT(mean.lag1, WithinAbs(0.55085706185706185, 1e-14));  // numpy 1.24, d = p - p.mean();
                                                                 // (d[1:]*d[:-1]).sum()/(d*d).sum()
  const ColumnTotal total = ColumnTotal::of(p, 0, p.size());
  CHECK(total.mean() == 162.4375);
  CHECK(total.least == 100.0);
  CHECK(total.most == 224.875);
}

// Standard error of r1 of an autoregressive series: sqrt((1 - r^2)/n) (Bartlett, from memory);
// five of them.
TEST_CASE("series sums: a made autocorrelation comes back") {
  for (const double r : {0.0, 0.5, 0.9, 0.99}) {
    const std::size_t rows = 200'000;
    const SeriesMean mean = sums_of(autoregressive(r, rows, 11)).result();
    const double error = std::sqrt((1.0 - r * r) / static_cast<double>(rows));
    CAPTURE(r, mean.lag1);
    CHECK_THAT(mean.lag1, WithinAbs(r, 5.0 * error));
    // Many independent ones for few, by the textbook ratio (1 - r)/(1 + r).
    CHECK_THAT(mean.effective / static_cast<double>(rows),
               WithinRel((1.0 - r) / (1.0 + r), 10.0 * error / (1.0 - r) + 1e-3));
  }
}

// What the effective number is for: means of such series scatter as sd / sqrt(effective).
TEST_CASE("series sums: means of many series scatter by their standard uncertainty") {
  std::vector<double> means;
  double squared_u = 0.0;
  constexpr unsigned runs = 400;
  for (unsigned seed = 1; seed <= runs; ++seed) {
    const SeriesMean mean = sums_of(autoregressive(0.8, 2000, seed)).result();
    means.push_back(mean.mean);
    squared_u += mean.standard_u().value() * mean.standard_u().value() / runs;
  }
  // A standard deviation of 400 values is known to 3.5 %; three of those.
  CHECK_THAT(sample_sd(means).value(), WithinRel(std::sqrt(squared_u), 0.11));
}

TEST_CASE("series sums: random splits with gaps and blanks agree with the two-pass definition") {
  std::mt19937 random(4);
  for (int run = 0; run < 100; ++run) {
    std::vector<double> values =
        autoregressive(0.7, 100 + random() % 900, static_cast<unsigned>(run));
    std::vector<std::int64_t> time_us;
    std::int64_t now = 0;
    for (double& value : values) {
      now += random() % 50 == 0 ? 15 * made::second_us : made::second_us;
      time_us.push_back(now);
      if (random() % 20 == 0) value = made::blank;
    }
    std::vector<double> present;
    double products = 0.0;
    double pairs = 0.0;
    std::vector<std::int64_t> when;
    for (std::size_t i = 0; i < values.size(); ++i)
      if (!std::isnan(values[i])) {
        present.push_back(values[i]);
        when.push_back(time_us[i]);
      }
    const double m = mean(present);
    double squares = 0.0;
    for (std::size_t i = 0; i < present.size(); ++i) {
      squares += (present[i] - m) * (present[i] - m);
      if (i == 0 || when[i] - when[i - 1] > gap_us) continue;
      products += (present[i] - m) * (present[i - 1] - m);
      pairs += 1.0;
    }
    const double lag1 = products / squares * (static_cast<double>(present.size()) - 1.0) / pairs;
    for (const SeriesSums& sums : {SeriesSums::of(time_us, values, 0, values.size(), gap_us),
                                   from_parts(time_us, values, random)}) {
      const SeriesMean got = sums.result();
      CAPTURE(run);
      CHECK(got.count == static_cast<std::int64_t>(present.size()));
      CHECK(static_cast<double>(sums.pairs) == pairs);
      CHECK_THAT(got.mean, WithinRel(m, 1e-14));
      CHECK_THAT(got.sd, WithinRel(sample_sd(present).value(), 1e-13));
      CHECK_THAT(got.lag1, WithinAbs(lag1, 1e-12));
    }
  }
}

TEST_CASE("series sums: parts with rows left out between them make no neighbours") {
  SeriesSums sums = sums_of({1.0, 2.0, 3.0});
  sums.append_apart(sums_of({4.0, 5.0}));
  CHECK(sums.pairs == 3);
  CHECK(sums.count == 5);
  CHECK(sums.mean == 3.0);
  CHECK(sums.squares == 10.0);
}

TEST_CASE("series sums: few values claim little") {
  CHECK(sums_of({}).result().effective == 0.0);
  CHECK(sums_of({made::blank}).result().count == 0);
  const SeriesMean one = sums_of({7.0}).result();
  CHECK(one.mean == 7.0);
  CHECK(one.sd == 0.0);
  CHECK(one.effective == 1.0);
  CHECK(sums_of(autoregressive(0.0, 19, 1)).result().effective == 1.0);
  CHECK(sums_of(autoregressive(0.0, 20, 1)).result().effective > 5.0);
  // Thirty values of which no two are neighbours do not show that they are independent.
  SeriesSums apart;
  for (int i = 0; i < 30; ++i)
    apart.append_apart(SeriesSums::of_one(i, i % 7));
  CHECK(apart.result().effective == 1.0);
  const SeriesMean constant = sums_of(std::vector<double>(100, 79.1)).result();
  CHECK(constant.mean == 79.1);
  CHECK(constant.sd == 0.0);
  CHECK(constant.lag1 == 0.0);
  // It has no autocorrelation that could tell how many are independent.
  CHECK(constant.effective == 1.0);
  const SeriesMean many = sums_of(std::vector<double>(3600, 79.123)).result();
  CHECK(many.effective == 1.0);
  CHECK(many.lag1 == 0.0);
}

TEST_CASE("series sums: the effective number of many rows is that of the long sum") {
  for (const double r : {-0.5, 0.0, 0.3, 0.9, 0.99, 1.0})
    for (const int n : {20, 9'999, 10'000, 10'001, 50'000}) {
      CAPTURE(r, n);
      CHECK_THAT(detail::effective_rows(n, r), WithinRel(effective_count(n, r), 1e-12));
    }
  // More rows than an int counts.
  CHECK_THAT(detail::effective_rows(5'000'000'000, 0.5), WithinRel(5e9 / 3.0, 1e-9));
}

TEST_CASE("column total: blanks do not count") {
  const std::vector<double> values{made::blank, 3.0, made::blank, -1.0, 4.0, made::blank};
  const ColumnSums sums = ColumnTotal::of(values, 0, values.size()).sums();
  CHECK(sums.count == 3);
  CHECK(sums.mean == 2.0);
  CHECK(sums.least == -1.0);
  CHECK(sums.most == 4.0);
  CHECK(ColumnTotal::of(values, 0, 1).sums().count == 0);
  CHECK(ColumnTotal::of(values, 2, 2).sums().count == 0);
}

// Only sums of 64 are taken without their rest: 64 roundings of 1.1e-16 at the most.
TEST_CASE("column total: a million times a tenth") {
  const std::vector<double> tenths(1'000'000, 0.1);
  CHECK_THAT(ColumnTotal::of(tenths, 0, tenths.size()).mean(), WithinRel(0.1, 7.2e-15));
}
