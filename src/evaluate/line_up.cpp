#include "hailwright/evaluate/line_up.hpp"

#include <algorithm>

#include "evaluate/line_up_differences.hpp"

namespace hailwright {

namespace {

/// The currency of most entries that have the number; of as many, the one given first.
std::string usual_currency(const std::vector<LineUpEntry>& entries) {
  std::map<std::string, int> counts;
  std::string usual;
  int most = 0;
  for (const LineUpEntry& e : entries) {
    if (e.price && e.numbers.contains(LineUpQuantity::price_per_watt))
      most = std::max(most, ++counts[e.price->currency]);
  }
  for (const LineUpEntry& e : entries) {
    if (usual.empty() && most > 0 && e.price && counts[e.price->currency] == most)
      usual = e.price->currency;
  }
  return usual;
}

/// Sorts the entries into those that can be ranked together.
class Sorting {
public:
  Sorting(const std::vector<LineUpEntry>& entries, LineUpQuantity order)
      : entries_(entries), order_(order), currency_(usual_currency(entries)) {
    for (std::size_t i = 0; i < entries.size(); ++i) {
      if (has_number(entries[i])) group_of(traits_of(entries[i])).push_back(i);
    }
    std::stable_sort(groups_.begin(), groups_.end(),
                     [](const auto& a, const auto& b) { return a.size() > b.size(); });
  }

  LineUp line_up() const {
    LineUp result;
    result.order = order_;
    std::vector<bool> ranked(entries_.size());
    for (const std::vector<std::size_t>& members : groups_) {
      if (members.size() < 2) break;
      result.groups.push_back(rank_group(entries_, members, order_));
      result.groups.back().traits = traits_of(entries_[members.front()]);
      for (const std::size_t i : members)
        ranked[i] = true;
    }
    for (std::size_t i = 0; i < entries_.size(); ++i) {
      if (!ranked[i]) result.unranked.push_back(unranked(i));
    }
    return result;
  }

private:
  /// Prices of different currencies do not compare.
  [[nodiscard]] bool has_number(const LineUpEntry& entry) const {
    if (!entry.numbers.contains(order_)) return false;
    return order_ != LineUpQuantity::price_per_watt ||
           (entry.price && entry.price->currency == currency_);
  }

  /// Losses in the shade compare where the shade is one.
  [[nodiscard]] std::vector<LineUpTrait> traits_of(const LineUpEntry& entry) const {
    std::vector<LineUpTrait> traits = entry.traits;
    if (order_ == LineUpQuantity::shading_loss && entry.shade)
      traits.push_back({"shade", *entry.shade});
    return traits;
  }

  std::vector<std::size_t>& group_of(const std::vector<LineUpTrait>& traits) {
    std::string text;
    for (const LineUpTrait& t : traits)
      text += t.what + '\n' + t.text + '\n';
    const auto [known, is_new] = index_.emplace(std::move(text), groups_.size());
    if (is_new) groups_.emplace_back();
    return groups_[known->second];
  }

  [[nodiscard]] LineUpUnranked unranked(std::size_t entry) const {
    LineUpUnranked result{entry, {}, !has_number(entries_[entry])};
    if (result.number_missing) return result;
    const std::vector<LineUpTrait> largest = traits_of(entries_[groups_.front().front()]);
    for (const LineUpTrait& t : traits_of(entries_[entry])) {
      if (std::find(largest.begin(), largest.end(), t) == largest.end())
        result.differs.push_back(t);
    }
    return result;
  }

  const std::vector<LineUpEntry>& entries_;
  LineUpQuantity order_;
  std::string currency_;
  std::map<std::string, std::size_t> index_;
  std::vector<std::vector<std::size_t>> groups_;
};

}  // namespace

LineUp line_up(const std::vector<LineUpEntry>& entries, LineUpQuantity order) {
  return Sorting(entries, order).line_up();
}

}  // namespace hailwright
