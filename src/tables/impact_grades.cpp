#include "hailwright/tables/impact_grades.hpp"

#include <array>

#include "hailwright/core/contract.hpp"
#include "tables/impact_grade_rows.hpp"

namespace hailwright {
namespace {

constexpr std::array<UnreadScheme, 2> unread{{
    {"IEC TS 63397",
     "the title of its Table 1 (ice-ball masses and kinetic energy) was read, its values were not "
     "seen; figures from elsewhere would be a guess"},
    {"FM 4478",
     "only its scope was read; its hail figures were not seen, and those of the roof schemes may "
     "differ"},
}};

bool is_space(char c) {
  return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/// Lower case (ASCII), one space between words, none at the ends.
std::string plain_words(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (is_space(c)) {
      if (!out.empty() && out.back() != ' ') out += ' ';
    } else {
      out += (c >= 'A' && c <= 'Z') ? static_cast<char>(c - 'A' + 'a') : c;
    }
  }
  if (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

}  // namespace

std::string_view text(Projectile projectile) {
  switch (projectile) {
  case Projectile::ice:
    return "ice";
  case Projectile::steel:
    return "steel";
  case Projectile::polyamide:
    return "polyamide";
  }
  fail_contract("unknown projectile");
}

std::string_view text(FieldStatus status) {
  switch (status) {
  case FieldStatus::read:
    return "read";
  case FieldStatus::from_memory:
    return "from memory";
  case FieldStatus::derived:
    return "derived";
  case FieldStatus::not_printed:
    return "not printed";
  }
  fail_contract("unknown field status");
}

std::optional<Energy> Grade::energy() const {
  if (!speed) return std::nullopt;
  return 0.5 * mass * *speed * *speed;
}

std::span<const Grade> impact_grades() {
  static const std::vector<Grade> grades = impact_grade_rows();
  return grades;
}

std::span<const UnreadScheme> unread_schemes() {
  return unread;
}

const Grade* find_grade(std::string_view text) {
  const std::string wanted = plain_words(text);
  const Grade* by_name = nullptr;
  int names = 0;
  for (const Grade& grade : impact_grades()) {
    if (plain_words(grade_label(grade)) == wanted) return &grade;
    if (plain_words(grade.name) == wanted) {
      by_name = &grade;
      ++names;
    }
  }
  return names == 1 ? by_name : nullptr;
}

std::string grade_label(const Grade& grade) {
  return std::string(grade.scheme) + " " + std::string(grade.name);
}

}  // namespace hailwright
