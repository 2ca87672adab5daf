// The questions that the safety gate may ask. All wording is ours; why each is asked, and what is
// enough, stands in src/safety/gate_rules.cpp.
#include "hailwright/model/safety_questions.hpp"

#include <algorithm>
#include <array>

#include "hailwright/core/contract.hpp"

namespace hailwright {

namespace {

constexpr std::array<std::string_view, 8> blocks{"launcher", "people", "ground", "eyes",
                                                 "panel",    "ice",    "after",  "agreed"};

using Form = AnswerForm;

// Names of src/safety/yardsticks.cpp without their comma, which would end a text inside braces,
// and shields as they are to be worn; tests/unit/safety/gate_rules_test.cpp holds the two lists
// together.
std::vector<std::string_view> eyewear_words() {
  return {"spectacles EN 166 S",
          "spectacles Z87 basic",
          "spectacles EN 166 F",
          "spectacles Z87+",
          "goggles Z87+",
          "goggles EN 166 B",
          "face shield Z87+",
          "face shield EN 166 A",
          "face shield Z87+ over goggles",
          "face shield EN 166 A over goggles"};
}

std::vector<SafetyQuestion> launcher_questions() {
  return {
      {"launcher",
       "released_by",
       Form::word,
       "how a shot is let off",
       "cord from the side",
       {"cord from the side", "remote switch", "hand on the launcher"}},
      {"launcher", "inspected", Form::yes_no, "is it looked over for wear before each session",
       "yes"},
      {"launcher", "unloaded_first", Form::yes_no,
       "is it unloaded and let down before anyone goes forward", "yes"},
      {"launcher", "aimed_up", Form::yes_no, "is it ever aimed above the level", "no"},
      {"launcher", "law_asked", Form::yes_no, "did the local authority say that it may be used",
       "yes"},
      {"launcher", "muzzle_clear", Form::yes_no,
       "does nobody look or reach into the muzzle, stuck ball or not", "yes"},
      {"launcher",
       "pressure_part",
       Form::word,
       "what holds gas under pressure, counting every part up to the muzzle",
       "none",
       {"none", "approved vessel with relief valve", "other metal part", "any plastic part"}},
      {"launcher",
       "pressure",
       Form::amount,
       "its highest pressure over that of the air outside",
       "4 bar",
       {},
       Measure::pressure},
      {"launcher",
       "volume",
       Form::amount,
       "how much gas it holds at that pressure",
       "2 l",
       {},
       Measure::volume},
      {"launcher", "vented_first", Form::yes_no,
       "is the pressure let out before anyone comes near it", "yes"},
      {"launcher",
       "ears",
       Form::word,
       "ears of everyone there",
       "protected",
       {"protected", "open"}},
      {"launcher", "unplugged_to_clear", Form::yes_no,
       "is the machine switched off and unplugged before it is cleared", "yes"},
      {"launcher",
       "dropped_from",
       Form::word,
       "where the person stands who drops the balls",
       "behind a rail",
       {"behind a rail", "on the ground", "a ladder", "an open edge"}},
      {"launcher", "cordon_below", Form::yes_no, "is the ground below the fall fenced off", "yes"},
  };
}

std::vector<SafetyQuestion> people_questions() {
  return {
      {"people",
       "in_front",
       Form::word,
       "who is in front of the launcher, beside the panel or below it while it can fire",
       "nobody",
       {"nobody", "somebody"}},
      {"people",
       "others",
       Form::word,
       "where everyone else is at a shot",
       "behind a screen",
       {"behind a screen", "10 m away or more", "nearer"}},
      {"people",
       "thrower",
       Form::word,
       "where the one is who lets off the shot",
       "behind a screen",
       {"behind a screen", "without a screen"}},
      {"people", "lookout", Form::yes_no,
       "does a second adult do nothing but watch the zone and call all-clear", "yes"},
      {"people", "children_away", Form::yes_no,
       "are children, spectators and animals kept out entirely", "yes"},
      {"people", "sober", Form::yes_no,
       "is everyone sober and rested, in good light and little wind", "yes"},
      {"people", "first_aid", Form::yes_no,
       "are first-aid kit, phone and the way to the nearest defibrillator known to all", "yes"},
  };
}

std::vector<SafetyQuestion> ground_questions() {
  return {
      {"ground",
       "misses_end_in",
       Form::word,
       "what stops a ball that misses",
       "backstop",
       {"backstop", "clear ground"}},
      {"ground", "backstop", Form::sides,
       "its width and height, more than the panel and your worst miss", "2.4 x 2.4 m"},
      {"ground",
       "backstop_of",
       Form::word,
       "what the backstop is",
       "heavy cloth before a board",
       {"heavy cloth before a board", "net before a board", "earth bank", "one layer"}},
      {"ground", "sides", Form::word, "the sides of the backstop", "closed", {"closed", "open"}},
      {"ground",
       "clear_ahead",
       Form::amount,
       "how far the ground ahead is clear of people, animals, roads and buildings",
       "120 m",
       {},
       Measure::length},
      {"ground",
       "beyond_the_panel",
       Form::word,
       "who is or can come behind the backstop, or onto the ground ahead",
       "nobody",
       {"nobody", "somebody"}},
      {"ground", "owner_agrees", Form::yes_no, "does the owner of the ground agree", "yes"},
      {"ground",
       "windows_and_cars",
       Form::word,
       "windows, cars and the land of others",
       "out of reach",
       {"out of reach", "within reach"}},
      {"ground",
       "place",
       Form::word,
       "closed range: ground that nobody else can enter",
       "closed range",
       {"closed range", "elsewhere"}},
  };
}

std::vector<SafetyQuestion> eyes_questions() {
  return {
      {"eyes", "everyone", Form::word, "the weakest eye protection that anyone there wears",
       "goggles EN 166 B", eyewear_words()},
      {"eyes", "thrower", Form::word, "what the one wears who lets off the shot",
       "face shield EN 166 A over goggles", eyewear_words()},
  };
}

std::vector<SafetyQuestion> panel_questions() {
  return {
      {"panel",
       "faces",
       Form::word,
       "face of each panel before leads are touched",
       "covered",
       {"covered", "open"}},
      {"panel",
       "leads",
       Form::word,
       "ends of the leads at the shots",
       "capped",
       {"capped", "bare"}},
      {"panel",
       "load",
       Form::word,
       "load before a plug is parted, and at the shots",
       "off",
       {"off", "on"}},
      {"panel", "installed", Form::yes_no, "is a panel part of an array, a roof or a vehicle",
       "no"},
      {"panel", "high_voltage_test", Form::yes_no,
       "is an insulation test or another test with high voltage planned", "no"},
      {"panel",
       "gloves",
       Form::word,
       "gloves for a wet or cracked panel",
       "insulated",
       {"insulated", "others"}},
      {"panel",
       "wired_by",
       Form::word,
       "who does the wiring",
       "a qualified person",
       {"a qualified person", "me"}},
  };
}

std::vector<SafetyQuestion> ice_questions() {
  return {
      {"ice",
       "handled_with",
       Form::word,
       "how balls are handled",
       "dry gloves",
       {"dry gloves", "tongs", "bare hands"}},
      {"ice", "dry_ice", Form::yes_no, "is dry ice used", "no"},
      {"ice",
       "dry_ice_kept",
       Form::word,
       "dry ice: in an open vessel and aired room, never in a freezer, car or cellar",
       "open and aired",
       {"open and aired", "closed up"}},
  };
}

std::vector<SafetyQuestion> after_questions() {
  return {
      {"after",
       "panel_goes",
       Form::word,
       "where a struck panel goes",
       "kept and marked",
       {"kept and marked", "returned and marked", "electronic waste", "household waste"}},
      {"after",
       "sold_or_installed",
       Form::word,
       "is a struck panel sold as sound, or put on a roof or vehicle",
       "never",
       {"never", "perhaps"}},
      {"after",
       "charging",
       Form::word,
       "a struck panel charges",
       "attended",
       {"attended", "never", "unattended"}},
  };
}

std::vector<SafetyQuestion> agreed_questions() {
  return {
      {"agreed", "by", Form::text, "initials of who answered", "MK"},
      {"agreed", "on", Form::date, "day of the answers", "2026-06-10"},
  };
}

const std::vector<SafetyQuestion>& all() {
  static const std::vector<SafetyQuestion> questions = [] {
    std::vector<SafetyQuestion> joined;
    for (const auto& block :
         {launcher_questions(), people_questions(), ground_questions(), eyes_questions(),
          panel_questions(), ice_questions(), after_questions(), agreed_questions()})
      joined.insert(joined.end(), block.begin(), block.end());
    return joined;
  }();
  return questions;
}

}  // namespace

std::span<const SafetyQuestion> safety_questions() {
  return all();
}

const SafetyQuestion* find_safety_question(std::string_view block, std::string_view key) {
  const auto found = std::find_if(all().begin(), all().end(), [&](const SafetyQuestion& question) {
    return question.block == block && question.key == key;
  });
  return found == all().end() ? nullptr : &*found;
}

std::span<const std::string_view> safety_blocks() {
  return blocks;
}

std::string possible_answers(const SafetyQuestion& question) {
  switch (question.form) {
  case AnswerForm::yes_no:
    return "yes or no";
  case AnswerForm::word: {
    std::string out;
    for (std::size_t i = 0; i < question.words.size(); ++i) {
      if (i > 0) out += "; ";
      out += question.words[i];
    }
    return out;
  }
  case AnswerForm::amount:
    return std::string(name(question.measure));
  case AnswerForm::sides:
    return "width x height";
  case AnswerForm::date:
    return "a date";
  case AnswerForm::text:
    return "a text";
  }
  fail_contract("unknown form of an answer");
}

}  // namespace hailwright
