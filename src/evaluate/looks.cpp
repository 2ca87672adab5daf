#include "evaluate/looks.hpp"

#include <algorithm>
#include <limits>
#include <numeric>
#include <tuple>

#include "evaluate/timeline.hpp"

namespace hailwright {

Answer is_major(const Finding& finding) {
  switch (finding.kind->gravity) {
  case Gravity::major:
    return Answer::yes;
  case Gravity::minor:
    return Answer::no;
  case Gravity::by_share:
    break;
  }
  if (!finding.share) return Answer::undecided;
  return *finding.share > finding.kind->share ? Answer::yes : Answer::no;
}

bool Moment::is_after(const Shot& shot) const {
  if (shot.series != series) return shot.series < series;
  return !after_throw || shot.number <= *after_throw;
}

bool operator<(const Moment& a, const Moment& b) {
  const auto key = [](const Moment& m) {
    return std::tuple(m.series, m.after_throw.value_or(std::numeric_limits<int>::max()));
  };
  return key(a) < key(b);
}

Moment moment_of(const Look& look) {
  return {look.after, look.after_throw};
}

std::vector<std::size_t> looks_in_order(const Record& record) {
  std::vector<std::size_t> order(record.looks.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const Timeline timeline(record);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return timeline.order_of(record.looks[a]) < timeline.order_of(record.looks[b]);
  });
  return order;
}

bool is_before_hail(const Record& record, const Look& look) {
  if (look.start) return true;
  const Timeline timeline(record);
  return timeline.has_hail() && look.after_stress &&
         timeline.at(look).over <= timeline.before_hail();
}

std::optional<std::size_t> look_at_start(const Record& record) {
  std::optional<std::size_t> last;
  for (const std::size_t i : looks_in_order(record)) {
    if (is_before_hail(record, record.looks[i])) last = i;
  }
  return last;
}

namespace {

/// How many series, from the first on, had all their throws made by a look after the first.
std::size_t series_completed(const Record& record, const Look& look) {
  const Moment moment = moment_of(look);
  const bool whole = std::all_of(record.shots.begin(), record.shots.end(), [&](const Shot& s) {
    return s.series != moment.series || moment.is_after(s);
  });
  return whole ? moment.series + 1 : moment.series;
}

}  // namespace

LookFor look_for(const Record& record, std::size_t series) {
  LookFor answer;
  answer.covers = {0, series};
  for (const std::size_t i : looks_in_order(record)) {
    const Look& look = record.looks[i];
    if (is_before_hail(record, look)) continue;
    if (look.after_stress) {
      // Only after all hail: it shows what all that was thrown since has done.
      answer.look = i;
      for (const Shot& shot : record.shots)
        answer.covers.last = std::max(answer.covers.last, shot.series);
      break;
    }
    const std::size_t completed = series_completed(record, look);
    if (completed > series) {
      answer.look = i;
      answer.covers.last = look.after;
      break;
    }
    answer.covers.first = completed;
    if (look.after == series) answer.between.push_back(i);
  }
  return answer;
}

std::vector<const Finding*> defects_from_start(const Record& record) {
  std::vector<const Finding*> defects;
  for (const Look& look : record.looks) {
    for (const Finding& f : look.saw) {
      const bool told = std::any_of(defects.begin(), defects.end(), [&](const Finding* d) {
        return d->kind == f.kind && d->where == f.where;
      });
      if (is_before_hail(record, look) && is_major(f) == Answer::yes && !told)
        defects.push_back(&f);
    }
  }
  return defects;
}

std::vector<NewFinding> new_findings(const Record& record) {
  std::vector<NewFinding> found;
  std::vector<const Finding*> seen;
  for (const std::size_t i : looks_in_order(record)) {
    const Look& look = record.looks[i];
    for (const Finding& f : look.saw) {
      const auto same = std::find_if(seen.rbegin(), seen.rend(), [&](const Finding* s) {
        return s->kind == f.kind && s->where == f.where;
      });
      const Answer before = same == seen.rend() ? Answer::no : is_major(**same);
      const bool known = same != seen.rend() && before == is_major(f);
      seen.push_back(&f);
      if (known || look.start) continue;
      const Answer now = is_major(f);
      // What was there in an unknown size may have been as large before.
      const bool undecided =
          now == Answer::undecided || (now == Answer::yes && before == Answer::undecided);
      found.push_back({&f, i, now == Answer::yes && !undecided, undecided});
    }
  }
  return found;
}

}  // namespace hailwright
