#include "report/judgement_logs.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/judgement_done.hpp"
#include "report/log_use_sentences.hpp"
#include "report/readings_sentences.hpp"

namespace hailwright {

namespace {

class LogFacts {
public:
  LogFacts(const Test& test, const Assessment& assessment, Audience audience)
      : test_(test), a_(assessment), audience_(audience) {}

  Facts take() {
    for (const LogUse& use : test_.record.logs)
      add_log(use);
    if (!test_.record.logs.empty())
      add_fact(facts_, "put up anew", {std::string(put_up_sentence())});
    for (const ReadingsAnswer& answer : session_answers(test_, a_))
      add_sessions(answer);
    add_fact(facts_, "assumed for them", assumed_lines());
    return std::move(facts_);
  }

private:
  void add_log(const LogUse& use) {
    std::vector<std::string> lines{setups_sentence(use, test_.record),
                                   steady_sentence(use.question), tally_sentence(use.tally),
                                   setup_gaps_sentence(use)};
    for (const LogStretch& s : use.findings.stretches) {
      const std::string in = s.name + ": ";
      if (s.clipping) lines.push_back(in + clipping_sentence(*s.clipping, ""));
      if (s.clipping_beside)
        lines.push_back(in + clipping_sentence(*s.clipping_beside, " of the second panel"));
    }
    add_fact(facts_, "readings from " + files_text(use.files), std::move(lines));
  }

  void add_sessions(const ReadingsAnswer& answer) {
    for (const NamedStretch& session : told_stretches(answer)) {
      std::vector<std::string> lines{session_sentence(session, answer)};
      const auto add = [&](const std::vector<std::string>& more) {
        lines.insert(lines.end(), more.begin(), more.end());
      };
      add(normalised_sentences(session, answer));
      add(session_remarks(session, answer));
      // A reader has no other page for them; a reviewer asks `hailwright readings`.
      if (audience_ == Audience::reader) add(session_details(session));
      add_fact(facts_, "session " + session.name, std::move(lines));
    }
    add_fact(facts_, "read for them",
             {files_text(answer.files) + ": " + tally_sentence(answer.tally),
              steady_sentence(answer.question)});
  }

  /// Of all sessions, each default once.
  [[nodiscard]] std::vector<std::string> assumed_lines() const {
    std::vector<std::string> lines;
    for (const LogResults& results : a_.sessions) {
      for (const DefaultId id : results.assumptions.used()) {
        const DefaultRow& row = default_row(id);
        std::string line =
            fmt::format("{}: {}. Write instead: {}", row.what, row.taken, row.replace);
        if (std::find(lines.begin(), lines.end(), line) == lines.end())
          lines.push_back(std::move(line));
      }
    }
    return lines;
  }

  const Test& test_;
  const Assessment& a_;
  Audience audience_;
  Facts facts_;
};

}  // namespace

Facts log_facts(const Test& test, const Assessment& assessment, Audience audience) {
  return LogFacts(test, assessment, audience).take();
}

}  // namespace hailwright
