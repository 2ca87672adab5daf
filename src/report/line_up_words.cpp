#include "report/line_up_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

using detail::QuantityWords;

constexpr std::array quantities{
    QuantityWords{LineUpQuantity::loss, "loss", "loss of power", "least first",
                  "lost less power than", "what was left of the power"},
    QuantityWords{LineUpQuantity::power, "power", "measured power", "most first",
                  "gave more power than", "the power"},
    QuantityWords{LineUpQuantity::share_of_rated, "share-of-rated", "share of the rated power",
                  "most first", "gave a larger share of its rated power than", "the share"},
    QuantityWords{LineUpQuantity::power_per_area, "power-per-area", "power per area", "most first",
                  "gave more power per area than", "the power per area"},
    QuantityWords{LineUpQuantity::power_per_mass, "power-per-mass", "power per mass", "most first",
                  "gave more power per mass than", "the power per mass"},
    QuantityWords{LineUpQuantity::price_per_watt, "price-per-watt", "price per measured watt",
                  "least first", "costs less per measured watt than", "the price per watt"},
    QuantityWords{LineUpQuantity::shading_loss, "shading-loss", "loss in partial shade",
                  "least first", "lost less in its shade than",
                  "what was left of the power in the shade"},
};

/// Of a list of names in a sentence [ours].
constexpr std::size_t names_shown = 12;
constexpr std::size_t cases_shown = 3;

const std::string& title_of(const LineUpView& view, std::size_t entry) {
  return view.entries->at(entry).title;
}

/// "A, B and 12 more".
std::string some_of(const std::vector<std::string>& names) {
  if (names.size() <= names_shown) return detail::enumerated_titles(names);
  std::vector<std::string> some(names.begin(), names.begin() + names_shown);
  some.push_back(std::to_string(names.size() - names_shown) + " more");
  return detail::enumerated_titles(some);
}

/// Whether two of a group were told apart; pairs that were not looked at have no answer.
class Pairs {
public:
  explicit Pairs(const LineUpGroup& group) {
    for (const LineUpDifference& d : group.differences)
      shown_[std::minmax(d.better, d.worse)] = d.shown;
  }
  [[nodiscard]] bool told_apart(std::size_t a, std::size_t b) const {
    const auto found = shown_.find(std::minmax(a, b));
    return found != shown_.end() && found->second;
  }
  /// Looked at, and not told apart.
  [[nodiscard]] bool alike(std::size_t a, std::size_t b) const {
    const auto found = shown_.find(std::minmax(a, b));
    return found != shown_.end() && !found->second;
  }

private:
  std::map<std::pair<std::size_t, std::size_t>, bool> shown_;
};

/// Of three in order, the outer two told apart and the middle one from neither.
std::vector<std::array<std::size_t, 3>> intransitive(const LineUpGroup& group) {
  const Pairs pairs(group);
  std::vector<std::array<std::size_t, 3>> found;
  const std::size_t count = group.ranks.size();
  for (std::size_t i = 0; i < count; ++i) {
    for (std::size_t j = i + 2; j < count; ++j) {
      const std::size_t a = group.ranks[i].entry;
      const std::size_t c = group.ranks[j].entry;
      if (!pairs.told_apart(a, c)) continue;
      for (std::size_t k = i + 1; k < j; ++k) {
        const std::size_t b = group.ranks[k].entry;
        if (pairs.alike(a, b) && pairs.alike(b, c)) found.push_back({a, b, c});
      }
    }
  }
  return found;
}

std::string gap_sentence(const LineUpEntry& e) {
  switch (e.gap) {
  case LineUpGap::not_compared:
    return "no power was compared";
  case LineUpGap::obstacle:
    return fmt::format("the power could not be compared{}; hailwright judge says why",
                       e.gap_text.empty() ? "" : " (" + e.gap_text + ")");
  case LineUpGap::not_valid:
    return "a check of the power failed, so the loss is not valid";
  case LineUpGap::not_deciding:
    return "no answer is drawn from the loss: too few set-ups, or a load that took less than the "
           "maximum";
  case LineUpGap::none:
    return "there is no loss";
  }
  fail_contract("unknown gap");
}

std::string missing_sentence(const LineUpView& view, const LineUpEntry& e) {
  const LineUpQuantity order = view.line_up->order;
  if (order == LineUpQuantity::loss) return gap_sentence(e);
  if (order == LineUpQuantity::price_per_watt && e.price &&
      e.numbers.contains(LineUpQuantity::power))
    return fmt::format("a price in {} cannot be set beside prices in another currency",
                       e.price->currency);
  return fmt::format("no {} is known", detail::words_of(order).name);
}

/// Series, stages and the like in the order in which they came.
std::string in_turn(std::string text) {
  for (std::size_t at = 0; (at = text.find("; ", at)) != std::string::npos;)
    text.replace(at, 2, " then ");
  return text;
}

/// What the largest group has in place of a trait.
std::string instead_of(const LineUpView& view, const LineUpTrait& trait) {
  if (view.line_up->groups.empty()) return "";
  for (const LineUpTrait& theirs : view.line_up->groups.front().traits) {
    if (theirs.what == trait.what && !theirs.text.empty())
      return "; in the group: " + in_turn(theirs.text);
  }
  return "";
}

/// Errors that two entries of a group have in common, of instruments and of models of panel.
struct SharedErrors {
  std::size_t instruments = 0, models = 0;
};

SharedErrors shared_errors(const LineUpView& view, const LineUpGroup& group) {
  std::set<std::string> once;
  std::set<std::string> shared;
  for (const LineUpRank& rank : group.ranks) {
    const auto& numbers = view.entries->at(rank.entry).numbers;
    const auto number = numbers.find(view.line_up->order);
    if (number == numbers.end()) continue;
    std::set<std::string> own;
    for (const LineUpError& error : number->second.errors) {
      if (!error.key.empty()) own.insert(error.key);
    }
    for (const std::string& key : own) {
      if (!once.insert(key).second) shared.insert(key);
    }
  }
  SharedErrors counts;
  for (const std::string& key : shared) {
    const bool model = key.starts_with("coefficient/") || key.starts_with("cell/");
    ++(model ? counts.models : counts.instruments);
  }
  return counts;
}

}  // namespace

std::string_view word(LineUpQuantity quantity) {
  return detail::words_of(quantity).word;
}

namespace detail {

const QuantityWords& words_of(LineUpQuantity quantity) {
  const auto* found = std::find_if(quantities.begin(), quantities.end(),
                                   [&](const QuantityWords& q) { return q.quantity == quantity; });
  expects(found != quantities.end(), "a known quantity");
  return *found;
}

std::vector<const Caution*> line_up_cautions(const std::vector<LineUpEntry>& entries) {
  std::vector<const Caution*> all;
  for (const LineUpEntry& e : entries)
    all.insert(all.end(), e.cautions.begin(), e.cautions.end());
  // The order of the table is that of urgency.
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end()), all.end());
  return all;
}

std::string enumerated_titles(const std::vector<std::string>& titles) {
  const bool commas = std::any_of(titles.begin(), titles.end(), [](const std::string& title) {
    return title.find(',') != std::string::npos;
  });
  return commas ? fmt::format("{}", fmt::join(titles, "; ")) : enumerate(titles);
}

std::vector<std::string> same_panels(const std::vector<LineUpEntry>& entries) {
  std::map<std::pair<std::string, std::string>, std::vector<std::string>> records;
  for (const LineUpEntry& e : entries) {
    if (!e.serial.empty()) records[{e.panel, e.serial}].push_back(e.title);
  }
  std::vector<std::string> sentences;
  for (const auto& [panel, titles] : records) {
    if (titles.size() < 2) continue;
    sentences.push_back(
        fmt::format("{} are records of one panel ({}, serial number {}): what is said of their "
                    "difference takes them for two.",
                    some_of(titles), panel.first, panel.second));
  }
  return sentences;
}

std::string rank_text(const LineUpRank& rank) {
  return rank.first == rank.last ? std::to_string(rank.first)
                                 : fmt::format("{}-{}", rank.first, rank.last);
}

std::string adjusted_p_text(double p) {
  if (p < 0.001) return "below 0.001";
  return p > 0.999 ? "1" : significant(p, 2);
}

std::string order_sentence(LineUpQuantity quantity) {
  return fmt::format("In order by {}, {}.", words_of(quantity).name, words_of(quantity).order);
}

std::vector<std::string> shown_sentences(const LineUpView& view, const LineUpGroup& group) {
  std::map<std::size_t, std::vector<std::string>> worse_of;
  const Pairs pairs(group);
  for (std::size_t i = 0; i < group.ranks.size(); ++i) {
    const std::size_t better = group.ranks[i].entry;
    for (std::size_t j = i + 1; j < group.ranks.size(); ++j) {
      const std::size_t worse = group.ranks[j].entry;
      if (pairs.told_apart(better, worse)) worse_of[i].push_back(title_of(view, worse));
    }
  }
  std::vector<std::string> sentences;
  for (const auto& [place, names] : worse_of) {
    sentences.push_back(fmt::format("{} {} {}.", title_of(view, group.ranks[place].entry),
                                    words_of(view.line_up->order).verb, some_of(names)));
  }
  return sentences;
}

std::vector<std::string> counted_sentences(const LineUpView& view, const LineUpGroup& group) {
  const Pairs pairs(group);
  const std::size_t best = group.ranks.front().entry;
  std::size_t from_best = 0;
  std::vector<std::string> neighbours;
  for (std::size_t i = 1; i < group.ranks.size(); ++i) {
    const std::size_t entry = group.ranks[i].entry;
    const std::size_t before = group.ranks[i - 1].entry;
    if (pairs.told_apart(best, entry)) ++from_best;
    if (pairs.told_apart(before, entry))
      neighbours.push_back(
          fmt::format("{} from {}", title_of(view, before), title_of(view, entry)));
  }
  std::vector<std::string> sentences{
      fmt::format(
          "In a group of more than {}, each is held against its neighbours in the order "
          "and against the first alone; corrected for all {} pairs of the group, though only "
          "neighbours and the first are shown.",
          line_up_each_with_each, group.ranks.size() * (group.ranks.size() - 1) / 2),
      fmt::format("{} {} {} of the {} others.", title_of(view, best),
                  words_of(view.line_up->order).verb, from_best, group.ranks.size() - 1)};
  sentences.push_back(neighbours.empty()
                          ? "No two neighbours in the order were told apart."
                          : "Neighbours that were told apart: " + some_of(neighbours) + ".");
  return sentences;
}

std::vector<std::string> shared_rank_sentences(const LineUpView& view, const LineUpGroup& group) {
  if (!group.each_with_each) return {"Pairs that were not looked at are not told apart."};
  const Pairs pairs(group);
  std::vector<std::string> sentences;
  for (std::size_t i = 0; i < group.ranks.size();) {
    std::size_t end = i + 1;
    const auto joins = [&](std::size_t next) {
      const LineUpRank& mine = group.ranks[i];
      const LineUpRank& theirs = group.ranks[next];
      if (mine.first != theirs.first || mine.last != theirs.last) return false;
      for (std::size_t k = i; k < next; ++k) {
        if (!pairs.alike(group.ranks[k].entry, theirs.entry)) return false;
      }
      return true;
    };
    while (end < group.ranks.size() && joins(end))
      ++end;
    std::vector<std::string> names;
    for (std::size_t k = i; k < end; ++k)
      names.push_back(title_of(view, group.ranks[k].entry));
    if (names.size() > 1)
      sentences.push_back(fmt::format("{} share the ranks {}: they could not be told apart.",
                                      some_of(names), rank_text(group.ranks[i])));
    i = end;
  }
  return sentences;
}

std::vector<std::string> intransitive_sentences(const LineUpView& view, const LineUpGroup& group) {
  if (!group.each_with_each) return {};
  const auto cases = intransitive(group);
  std::vector<std::string> sentences;
  for (std::size_t i = 0; i < std::min(cases.size(), cases_shown); ++i) {
    const std::string& a = title_of(view, cases[i][0]);
    const std::string& b = title_of(view, cases[i][1]);
    const std::string& c = title_of(view, cases[i][2]);
    sentences.push_back(
        fmt::format("{} and {} could not be told apart, nor could {} and {}; {} and {} could. {} "
                    "lies between them, too near to each for these tests.",
                    a, b, b, c, a, c, b));
  }
  if (cases.size() > cases_shown)
    sentences.push_back(cases.size() - cases_shown == 1
                            ? "So it is once more."
                            : fmt::format("So it is {} more times.", cases.size() - cases_shown));
  return sentences;
}

std::string unranked_sentence(const LineUpView& view, const LineUpUnranked& unranked) {
  if (unranked.number_missing) return missing_sentence(view, view.entries->at(unranked.entry));
  if (view.entries->size() == 1) return "there is no other record to hold it against";
  std::vector<std::string> parts;
  for (const LineUpTrait& trait : unranked.differs)
    parts.push_back(
        fmt::format("{}: here: {}{}", trait.what, in_turn(trait.text), instead_of(view, trait)));
  if (parts.empty()) return "no other record is comparable with it";
  return fmt::format("not comparable, by {}", fmt::join(parts, ". By "));
}

std::string sharpening_sentence(const LineUpView& view, const LineUpGroup& group) {
  const auto matched_of = [](std::size_t count, std::string_view whose) {
    return fmt::format(
        "{} of {} matched between records and cancelled in the differences as far as "
        "they are shared.",
        count == 1 ? "1 error" : fmt::format("{} errors", count),
        fmt::format("{} {}", whose, count == 1 ? "was" : "were"));
  };
  const SharedErrors shared = shared_errors(view, group);
  std::string matched =
      shared.instruments == 0
          ? "No error of an instrument was matched between these records. Where they used "
            "the same instruments, write id: under tools in their protocols: errors that "
            "two records share then cancel in their difference."
          : matched_of(shared.instruments, "instruments") +
                " Instruments are matched by the id: under tools.";
  if (shared.models > 0) matched += " " + matched_of(shared.models, "models of panel");
  return matched + " More set-ups in each test make the intervals narrower; hailwright plan says "
                   "what a number of them can show, and with which probability.";
}

}  // namespace detail

}  // namespace hailwright
