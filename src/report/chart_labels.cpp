#include "report/chart_labels.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "hailwright/core/contract.hpp"
#include "report/chart.hpp"

namespace hailwright::detail {

namespace {

constexpr double between = 8.0;  ///< kept free between two labels of a row
constexpr int most_rows = 3;

/// The labels of one axis, tried one way after the other.
class Placer {
public:
  Placer(const std::vector<double>& at, const std::vector<std::string>& words, double size,
         Ends within)
      : at_(at), size_(size), within_(within) {
    expects(at.size() == words.size(), "a label for every item");
    for (const std::string& w : words) {
      widths_.push_back(text_units(w, size));
      expects(widths_.back() <= within.length(), "room for every label");
    }
  }

  [[nodiscard]] AxisLabels place() const {
    for (int every = 1;; ++every) {
      for (int rows = 1; rows <= most_rows; ++rows) {
        if (auto placed = level(rows, every)) return *placed;
      }
      if (every == 1 && upright_fits()) return upright();
    }
  }

private:
  [[nodiscard]] std::optional<AxisLabels> level(int rows, int every) const {
    AxisLabels placed;
    placed.every = every;
    std::vector<double> taken(static_cast<std::size_t>(rows), within_.low - between);
    for (std::size_t i = 0; i < at_.size(); i += static_cast<std::size_t>(every)) {
      const std::size_t row = placed.labels.size() % taken.size();
      const double half = widths_[i] / 2.0;
      const double x = std::clamp(at_[i], within_.low + half, within_.high - half);
      if (x - half < taken[row] + between) return std::nullopt;
      taken[row] = x + half;
      placed.labels.push_back({i, x, static_cast<int>(row)});
    }
    placed.height = label_row * std::min(rows, static_cast<int>(placed.labels.size()));
    return placed;
  }

  [[nodiscard]] bool upright_fits() const {
    for (std::size_t i = 1; i < at_.size(); ++i) {
      if (at_[i] - at_[i - 1] < label_row) return false;
    }
    return true;
  }

  [[nodiscard]] AxisLabels upright() const {
    AxisLabels placed;
    placed.upright = true;
    for (std::size_t i = 0; i < at_.size(); ++i)
      placed.labels.push_back({i, at_[i], 0});
    placed.height = *std::max_element(widths_.begin(), widths_.end()) + size_ / 2.0;
    return placed;
  }

  const std::vector<double>& at_;
  double size_;
  Ends within_;
  std::vector<double> widths_;
};

/// Neighbours that keep together: where their common level would be, and how many they are.
struct Pool {
  double sum;
  std::size_t count;
  [[nodiscard]] double level() const { return sum / static_cast<double>(count); }
};

/// The rising sequence nearest to this one, by joining neighbours that fall.
std::vector<double> nearest_rising(const std::vector<double>& wanted) {
  std::vector<Pool> pools;
  for (const double w : wanted) {
    pools.push_back({w, 1});
    while (pools.size() > 1 && pools[pools.size() - 2].level() > pools.back().level()) {
      const Pool last = pools.back();
      pools.pop_back();
      pools.back().sum += last.sum;
      pools.back().count += last.count;
    }
  }
  std::vector<double> rising;
  for (const Pool& p : pools)
    rising.insert(rising.end(), p.count, p.level());
  return rising;
}

}  // namespace

AxisLabels labels_along(const std::vector<double>& at, const std::vector<std::string>& words,
                        double size, Ends within) {
  if (at.empty()) return {};
  return Placer(at, words, size, within).place();
}

std::vector<double> spread_apart(const std::vector<double>& wanted, double gap, Ends within) {
  const std::size_t n = wanted.size();
  if (n == 0) return {};
  const double rest = within.length() - static_cast<double>(n - 1) * gap;
  expects(rest >= 0.0, "room for all labels");
  std::vector<std::size_t> order(n);
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return wanted[a] < wanted[b]; });
  // Less the gaps before it, each label may stand where the one before it does.
  std::vector<double> less_gaps;
  for (std::size_t k = 0; k < n; ++k)
    less_gaps.push_back(wanted[order[k]] - static_cast<double>(k) * gap);
  const std::vector<double> rising = nearest_rising(less_gaps);
  std::vector<double> placed(n);
  for (std::size_t k = 0; k < n; ++k) {
    placed[order[k]] =
        std::clamp(rising[k], within.low, within.low + rest) + static_cast<double>(k) * gap;
  }
  return placed;
}

}  // namespace hailwright::detail
