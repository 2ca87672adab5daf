#pragma once

#include <string>
#include <vector>

#include "hailwright/evaluate/power.hpp"

namespace hailwright {

/// Why there is no comparison of power, with the mend.
std::string obstacle_sentence(PowerObstacle obstacle, const std::string& subject);

/// What speaks for or against a comparison of power.
std::string note_sentence(const PowerNote& note);

/// The first remark of this kind; nullptr where there is none.
const PowerNote* find_note(const PowerResult& power, PowerRemark remark);

/// "extended after seeing the result: looked at 2 times where the protocol plans 1". Contract: a
/// note of that kind.
std::string extension_text(const PowerNote& note);

/// A reading that lies apart; where panels are compared, what lies apart is the difference of a
/// round, since their common sun is no scatter.
std::string outlying_sentence(const PowerNote& note, Comparison compared);
/// Of several in one set-up, how many and how far the furthest lies. Contract: one or more.
std::string outlying_sentence(const std::vector<PowerNote>& notes, Comparison compared);
/// "with the skipped readings kept in: 9.0 %"; how many of them have no value that could be kept.
/// Contract: a result with them.
std::string with_skipped_sentence(const PowerResult& power, const Record& record);

/// Where random trials would answer otherwise; the ends as they are shown.
std::string disagreement_sentence(const std::string& ends);

/// The two questions about the power and their answers.
std::string real_answer(const PowerResult& power);
std::string beyond_answer(const PowerResult& power);

/// What is said of a loss that is not beyond the limit: "no loss of power greater than 5 %".
std::string within_claim(const PowerResult& power);
/// "; answered by the estimate alone ...": its risk goes with every answer that was got so; else
/// empty.
std::string simple_rider(const PowerResult& power);
/// Why the limit stays open, the result is not valid, or no answer is drawn from it. Contract: a
/// result of that kind.
std::string open_limit_sentence(const PowerResult& power);
std::string not_valid_sentence(const PowerResult& power);
std::string no_answer_sentence(const PowerResult& power);

/// What a limit that is a reader's own comes to, and that the verdict stays.
std::string reader_limit_sentence(const PowerResult& power, Ratio limit,
                                  const LossAnswers& answers);

}  // namespace hailwright
