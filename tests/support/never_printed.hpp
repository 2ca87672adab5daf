#pragma once

#include <array>

/// What no output says (docs/measurement.md, M18), for every test that looks for it.
struct NeverPrinted {
  const char* part;     ///< stands in every such phrase, in small letters
  const char* pattern;  ///< ECMAScript, without regard to capitals
  const char* example;  ///< what it finds
};
inline constexpr std::array never_printed{
    NeverPrinted{"passed", R"(\bpassed\b)", "The panel passed."},
    NeverPrinted{"the standard", R"(\b(met|meets) the standard)", "It met the standard."},
    NeverPrinted{"certified", R"(\bcertified\b)", "a certified panel"},
    NeverPrinted{"iec", R"(\bIEC[- ]rated\b)", "an IEC-rated panel"},
    NeverPrinted{"class hw", R"(\bclass HW ?\d)", "of class HW 4"},
    NeverPrinted{"undamaged", R"(\bundamaged\b)", "It is undamaged."},
    NeverPrinted{"no damage", R"(\bno damage\b)", "No damage was done."},
    NeverPrinted{"unaffected", R"(\bunaffected\b)", "unaffected by hail"},
    NeverPrinted{"proof", R"(\bhail[- ]?proof\b)", "a hail-proof panel"},
    NeverPrinted{"safe distance", R"(\bsafe distance\b)", "a safe distance of 20 m"},
    NeverPrinted{"safe to use", R"(\bsafe to use\b)", "The panel is safe to use."},
    NeverPrinted{"that nothing", R"(\b(chance|probability) that nothing happened)",
                 "a 4 % chance that nothing happened"},
    NeverPrinted{"within error", R"(\bwithin error\b)", "The same within error."},
    NeverPrinted{"will settle it", R"(\bset-ups will settle it\b)",
                 "2 more set-ups will settle it"},
    NeverPrinted{"this", R"(\bthis (model|make|brand) (withst|resists|survives|is better))",
                 "This model withstands hail."}};
