#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/report/compose.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

std::string or_dash(const std::optional<Energy>& e) {
  return e ? fixed(e->si(), 4) : "-";
}
/// A mark that follows a remembered or derived number into the table.
std::string_view mark(FieldStatus status) {
  switch (status) {
  case FieldStatus::read:
  case FieldStatus::not_printed:
    return "";
  case FieldStatus::from_memory:
    return " m";
  case FieldStatus::derived:
    return " d";
  }
  return "";
}

std::vector<std::string> schemes(std::string_view only) {
  std::vector<std::string> names;
  for (const Grade& g : impact_grades()) {
    const std::string name(g.scheme);
    if (!only.empty() && name != only) continue;
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  return names;
}

const Citation& source_of(const Grade& grade) {
  const auto sources = impact_grade_sources();
  return *std::find_if(sources.begin(), sources.end(),
                       [&](const Citation& c) { return c.id == grade.citation; });
}

Table scheme_table(const std::string& scheme) {
  Table table{"",
              {{"grade"},
               {"ball"},
               {"mm", Align::right},
               {"g", Align::right},
               {"m/s", Align::right},
               {"J computed", Align::right},
               {"J printed", Align::right},
               {"known"}},
              {}};
  for (const Grade& g : impact_grades()) {
    if (g.scheme != scheme) continue;
    table.rows.push_back(
        {std::string(g.name), std::string(text(g.projectile)),
         plain_number(g.diameter.si() * 1000.0, 4) + std::string(mark(g.diameter_status)),
         plain_number(g.mass.si() * 1000.0, 4) + std::string(mark(g.mass_status)),
         (g.speed ? plain_number(g.speed->si(), 4) : "-") + std::string(mark(g.speed_status)),
         or_dash(g.energy()),
         (g.printed ? plain_number(g.printed->si(), 4) : "-") + std::string(mark(g.energy_status)),
         std::string(text(g.status))});
  }
  return table;
}

}  // namespace

Document compose_grades(std::string_view scheme) {
  Document out;
  out.title = "Published hail-test grades";
  out.blocks.push_back(Paragraph{plain(
      "Energy is computed as half the mass times the speed squared of the row. m: from memory, not "
      "read. d: derived from other numbers of the row. Ice is never converted to steel, nor one "
      "scheme to another.")});
  for (const std::string& name : schemes(scheme)) {
    out.blocks.push_back(Heading{2, plain(name)});
    out.blocks.push_back(scheme_table(name));
    std::set<std::string_view> told;
    Facts facts;
    for (const Grade& g : impact_grades()) {
      if (g.scheme != name || !told.insert(g.citation).second) continue;
      const Citation& c = source_of(g);
      facts.items.push_back({"source", {plain(fmt::format("{} ({})", c.title, text(c.status)))}});
      if (!c.note.empty()) facts.items.back().lines.push_back(plain(std::string(c.note)));
    }
    out.blocks.push_back(std::move(facts));
  }
  Facts unread;
  for (const UnreadScheme& u : unread_schemes()) {
    if (scheme.empty())
      unread.items.push_back({std::string(u.scheme), {plain(std::string(u.why))}});
  }
  if (!unread.items.empty()) {
    out.blocks.push_back(Heading{2, plain("Not offered")});
    out.blocks.push_back(std::move(unread));
  }
  return out;
}

Table grades_table(std::string_view scheme) {
  Table table{"",
              {{"scheme"},
               {"grade"},
               {"projectile"},
               {"diameter_mm", Align::right},
               {"mass_g", Align::right},
               {"speed_m_s", Align::right},
               {"energy_J_computed", Align::right},
               {"energy_J_printed", Align::right},
               {"momentum_kg_m_s", Align::right},
               {"diameter_status"},
               {"mass_status"},
               {"speed_status"},
               {"energy_status"},
               {"status"},
               {"source"},
               {"note"}},
              {}};
  for (const Grade& g : impact_grades()) {
    if (!scheme.empty() && g.scheme != scheme) continue;
    const auto momentum = g.speed ? fixed(g.mass.si() * g.speed->si(), 4) : std::string();
    table.rows.push_back(
        {std::string(g.scheme), std::string(g.name), std::string(text(g.projectile)),
         plain_number(g.diameter.si() * 1000.0, 5), plain_number(g.mass.si() * 1000.0, 5),
         g.speed ? plain_number(g.speed->si(), 5) : "",
         g.energy() ? fixed(g.energy()->si(), 4) : "",
         g.printed ? plain_number(g.printed->si(), 5) : "", momentum,
         std::string(text(g.diameter_status)), std::string(text(g.mass_status)),
         std::string(text(g.speed_status)), std::string(text(g.energy_status)),
         std::string(text(g.status)), std::string(g.citation), std::string(g.note)});
  }
  return table;
}

}  // namespace hailwright
