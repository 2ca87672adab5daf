#include "evaluate/looks.hpp"

#include <algorithm>

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

std::optional<std::size_t> look_at_start(const Record& record) {
  for (std::size_t i = 0; i < record.looks.size(); ++i) {
    if (record.looks[i].start) return i;
  }
  return std::nullopt;
}

LookFor look_for(const Record& record, std::size_t series, std::size_t series_count) {
  LookFor answer;
  std::size_t last = series_count;
  std::optional<std::size_t> earlier;
  for (std::size_t i = 0; i < record.looks.size(); ++i) {
    const Look& look = record.looks[i];
    if (look.start) continue;
    if (look.after >= series && look.after < last) {
      last = look.after;
      answer.look = i;
    }
    if (look.after < series) earlier = std::max(earlier.value_or(0), look.after);
  }
  answer.covers = {earlier ? *earlier + 1 : 0, answer.look ? last : series};
  return answer;
}

std::vector<NewFinding> new_findings(const Record& record) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < record.looks.size(); ++i)
    order.push_back(i);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const Look& x = record.looks[a];
    const Look& y = record.looks[b];
    if (x.start != y.start) return x.start;
    return x.after < y.after;
  });
  std::vector<NewFinding> found;
  std::vector<const Finding*> seen;
  for (const std::size_t i : order) {
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
