#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/report/workbook.hpp"

namespace hailwright {

/// A kind of test to begin from.
struct StarterKind {
  std::string_view name;   ///< as `hailwright start --from` takes it
  std::string_view about;  ///< what it is for, in a line
  bool control = false;    ///< an unstruck panel is measured beside the struck one
  bool power = true;       ///< the power is measured; otherwise the panel is judged by looks
  bool two_series = true;  ///< balls of 25 mm and of 35 mm; otherwise of 25 mm
  bool siblings = false;   ///< it is compared with unstruck units, and nothing is read before
};

/// All kinds, the usual one first.
std::span<const StarterKind> starter_kinds();
/// nullptr when there is none of this name.
const StarterKind* find_starter_kind(std::string_view name);

struct StarterFile {
  std::string name;  ///< may begin with a folder: "panels/panel-a.yaml"
  std::string bytes;
  std::string holds;  ///< what it is for, in a few words
};

/// Protocol, panel, record and header-only tables to begin from, with a remark at every key that
/// the formats have. What only a person can answer is `answer_to_come`
/// (hailwright/model/safety_questions.hpp), and `check` names each of these and nothing else. Keys
/// that are not needed stand behind a # without a blank.
std::vector<StarterFile> starter_files(const StarterKind& kind);

/// The same tables as sheets of a workbook, with a sheet that explains every column.
Workbook starter_tables(const StarterKind& kind);

}  // namespace hailwright
