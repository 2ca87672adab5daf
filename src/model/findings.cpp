#include "hailwright/model/findings.hpp"

#include <algorithm>
#include <array>

namespace hailwright {

const std::vector<Citation>& finding_sources() {
  static const std::vector<Citation> sources{
      {.id = "iec61215-mqt01",
       .title = "IEC 61215:2005 and IEC 61646, clause 7: list of major visual defects, in our own "
                "words",
       .read_at = "samvartaka.blogspot.com ; jiaotongmap.com/?p=4577",
       .status = ReadStatus::read,
       .note = "secondary; read there: broken outer surfaces, parts bent or out of place, cell "
               "cracks, bubbles to the edge, lost mechanical integrity, voids in thin film, lost "
               "label"},
      {.id = "iec61215-mqt01-later",
       .title = "IEC 61215-1 (2016 and 2021): further major visual defects",
       .read_at = "",
       .status = ReadStatus::from_memory,
       .note = "live part, burnt, broken joint, broken ribbon"},
      {.id = "minor-findings",
       .title = "smaller things that a careful eye notes and the list of major defects does not "
                "name",
       .read_at = "",
       .status = ReadStatus::ours,
       .note = "that these never decide a verdict is ours; NREL/TP-5200-56154, a sheet for "
               "inspecting modules by eye, asks for things of this sort"},
  };
  return sources;
}

namespace {

// Source of each rule: its status tells which of the three above.
constexpr ReadStatus listed = ReadStatus::read;
constexpr ReadStatus later = ReadStatus::from_memory;
constexpr ReadStatus ours = ReadStatus::ours;
constexpr Ratio none{};
constexpr Ratio tenth_of_cell = percent(10);  // iec61215-mqt01: more than 10 % of the cell
constexpr std::array<FindingKind, 23> kind_rows{{
    {"broken front", "front glass or front sheet cracked, broken, torn or pierced", Gravity::major,
     none, listed},
    {"broken back", "back sheet or back glass cracked, broken, torn or pierced", Gravity::major,
     none, listed},
    {"broken frame", "frame cracked or broken", Gravity::major, none, listed},
    {"broken box", "junction box cracked, broken or torn", Gravity::major, none, listed},
    {"bent",
     "a surface, the frame or the box so out of shape or place that mounting or working "
     "suffers",
     Gravity::major, none, listed},
    {"bubbles to edge", "bubbles or peeling that make a path from the circuit to the panel's edge",
     Gravity::major, none, listed},
    {"loose part", "something no longer holds, so that mounting or working suffers", Gravity::major,
     none, listed},
    {"lost label", "label gone or unreadable", Gravity::major, none, listed},
    {"live part", "bare metal of the circuit that a finger could touch", Gravity::major, none,
     later},
    {"burnt", "melted or burnt front, back, encapsulant, box or diode", Gravity::major, none,
     later},
    {"broken joint", "a joint or terminal broken, or parts that touch and short the circuit",
     Gravity::major, none, later},
    {"broken ribbon", "a ribbon between cells torn or parted", Gravity::major, none, later},
    {"cell crack",
     "crack in a cell; share: of that cell's area, what it could cut off if it "
     "spread",
     Gravity::by_share, tenth_of_cell, listed},
    {"voids", "thin film: holes or corrosion in the layer; share: of that cell's area",
     Gravity::by_share, tenth_of_cell, listed},
    {"scuff", "surface scratched or matt, nothing cracked", Gravity::minor, none, ours},
    {"chip", "a flake gone from an edge or corner, no crack running from it", Gravity::minor, none,
     ours},
    {"dent", "a hollow in the surface, the back or the frame, nothing torn", Gravity::minor, none,
     ours},
    {"bubbles", "bubbles or peeling that do not make a path to the edge", Gravity::minor, none,
     ours},
    {"colour", "cells or encapsulant changed colour", Gravity::minor, none, ours},
    {"trail", "fine dark lines on a cell, like the track of a snail", Gravity::minor, none, ours},
    {"water inside", "mist or drops behind the front", Gravity::minor, none, ours},
    {"box wobble", "junction box moves but is whole and still held", Gravity::minor, none, ours},
    {"cut lead", "a cable nicked or cut, no bare metal showing (bare metal: live part)",
     Gravity::minor, none, ours},
}};

}  // namespace

const std::vector<FindingKind>& finding_kinds() {
  static const std::vector<FindingKind> kinds(kind_rows.begin(), kind_rows.end());
  return kinds;
}

const FindingKind* find_finding_kind(std::string_view word) {
  const std::vector<FindingKind>& kinds = finding_kinds();
  const auto found = std::find_if(kinds.begin(), kinds.end(),
                                  [word](const FindingKind& kind) { return kind.word == word; });
  return found == kinds.end() ? nullptr : &*found;
}

}  // namespace hailwright
