// The words of all cautions: none is softened without a second reader. Figures: CautionLimits.
#include "hailwright/safety/cautions.hpp"

#include <array>

#include "safety/caution_lists.hpp"

namespace hailwright {
namespace {

constexpr std::string_view en166 = "EN 166, impact tests, as printed in BR 192, table 8";
constexpr std::string_view en166_read_at = "regelwerke.vbg.de, br192, table 8";

// In the order of urgency, group after group.
constexpr std::array cautions{
    Caution{
        .id = "body_hit_lethal",
        .group = CautionGroup::people,
        .hazard = "Lethal-class projectile",
        .text = "From 58 foot-pounds (78.6 J) a ball is in the range that military rules call a "
                "hazardous fragment. Do not do this at home; hand it to a laboratory.",
        .trigger = "energy of 78.63 J or more, or not known",
        .source = "DDESB TP-12, hazardous fragment, in a summary",
        .read_at = "photonsquared.com/engineering/fragment-and-debris-hazards",
        .status = ReadStatus::read,
        .status_note = "the summary was read, not TP-12 itself",
    },
    Caution{
        .id = "body_hit_severe",
        .group = CautionGroup::people,
        .hazard = "Life-threatening injury from a direct hit",
        .text = "From 25 foot-pounds (33.9 J) a ball is at or above a yardstick for injury from "
                "aircraft over people, and a direct hit can threaten life. A home setting is "
                "hardly suitable; use a test laboratory or a closed range with remote firing.",
        .trigger = "energy of 33.89 J or more, or not known",
        .source = "14 CFR 107.130",
        .read_at = "faraim.org",
        .status = ReadStatus::read,
        .status_note = "made for small aircraft over people, not for ice",
    },
    Caution{
        .id = "body_hit_serious",
        .group = CautionGroup::people,
        .hazard = "Serious injury from a direct hit",
        .text = "From 11 foot-pounds (14.9 J) a ball is at or above the yardstick used for "
                "aircraft and debris over people. Treat the launcher as a weapon; fire remotely "
                "from behind a screen, with a full backstop.",
        .trigger = "energy of 14.9 J or more, or not known",
        .source = "14 CFR 107.120; RCC 321",
        .read_at = "mavicpilots.com, thread 105882 (quotes 14 CFR 107.120)",
        .status = ReadStatus::read,
        .status_note = "read as quoted; RCC 321 is from memory; not made for ice",
    },
    Caution{
        .id = "heart_blow",
        .group = CautionGroup::people,
        .hazard = "Blow to the chest can upset the heart rhythm, mostly in children and teenagers",
        .text =
            "From about 9 J hard-ball chest blows have stopped hearts in animal tests, and small "
            "hard balls are no safer. Keep children and spectators out entirely; know where the "
            "nearest defibrillator is and call emergency help at once after a chest hit.",
        .trigger = "energy of 9 J or more, or not known",
        .source = "Link et al. 2003, 0.145 kg ball: 0 % at 20 mph, 7 % at 25, 68 % at 40",
        .read_at = "utsouthwestern.elsevierpure.com",
        .status = ReadStatus::ours,
        .status_note = "speeds read, joules computed; that 9 J is a limit for ice is our reading",
    },
    Caution{
        .id = "body_hit_any",
        .group = CautionGroup::people,
        .hazard = "Ice ball strikes a person",
        .text = "Even the smallest test ball carries more energy than a rigid toy projectile is "
                "allowed. Nobody may be in front of the launcher or beside the target while it can "
                "fire.",
        .trigger = "energy of 0.08 J or more, or not known",
        .source = "EN 71-1, older edition, limit for rigid projectiles, in a summary",
        .read_at = "unsafetoys.blogspot.com/2010/11/suction-cups-toy-guns.html",
        .status = ReadStatus::read,
        .status_note = "secondary; newer editions limit the energy per area",
    },
    Caution{
        .id = "bystanders",
        .group = CautionGroup::people,
        .hazard = "People, children or animals walk into the zone",
        .text =
            "Mark a clear zone, have one adult do nothing but watch it, call all-clear before each "
            "shot, and stop when anyone or any animal enters. Unload before anybody goes forward.",
        .trigger = "every launch",
        .status = ReadStatus::common_practice,
    },
    Caution{
        .id = "missed_ball",
        .group = CautionGroup::people,
        .hazard = "A missed ball flies past the panel",
        .text = "Keep the ground ahead clear for the speed squared over 9.81 m/s2 (54 m at 23 m/s, "
                "159 m at 39.5 m/s; farther from a raised muzzle, and the ball then bounces and "
                "rolls on), or build a full backstop. Trial-shoot at a dummy first and aim level "
                "or downwards, never up.",
        .trigger = "every launch",
        .source = "flight computed without air, an upper bound for the first contact",
        .status = ReadStatus::ours,
        .status_note = "distances computed; the rule is ours",
    },
    Caution{
        .id = "backstop",
        .group = CautionGroup::people,
        .hazard = "Ball or panel pieces pass or bounce off the backstop",
        .text =
            "Use a layered stop wider and higher than your worst aim scatter (hanging heavy cloth "
            "or net before a board), closed at the sides, with nothing and nobody behind it.",
        .trigger = "every launch",
        .status = ReadStatus::ours,
        .status_note = "partly common practice",
    },
    Caution{
        .id = "fragments",
        .group = CautionGroup::people,
        .hazard = "Ice chips and glass chips thrown back or sideways",
        .text = "A 2 mm chip could fly up to about 10 m. Keep people at least 10 m away or behind "
                "a screen, and wear goggles within 20 m when chips of 5 mm can form.",
        .trigger = "every launch",
        .source = "flight computed, chips thrown at the speed of the impact",
        .status = ReadStatus::ours,
        .status_note = "flights computed, no chip speeds found; distances are ours",
    },
    Caution{
        .id = "work_alone",
        .group = CautionGroup::people,
        .hazard = "Injury with nobody to help",
        .text = "Work with a second adult, first-aid kit and phone; no alcohol; do not test when "
                "tired, in poor light, or in wind that moves the backstop.",
        .trigger = "every launch",
        .status = ReadStatus::common_practice,
    },
    Caution{
        .id = "property",
        .group = CautionGroup::people,
        .hazard = "Broken windows, cars, neighbours' property; insurance or warranty refusal",
        .text = "Choose open private ground with permission. Check that insurance covers it and "
                "expect panel warranty to end.",
        .trigger = "every launch",
        .status = ReadStatus::common_practice,
    },
    Caution{
        .id = "eye_globe",
        .group = CautionGroup::eyes,
        .hazard = "Permanent eye damage from a hit to the eye",
        .text = "From about 19 000 J per m2 of ball cross-section the published eye-injury curves "
                "predict lens, bleeding and rupture injuries. Water-balloon slingshots at 38 to 41 "
                "m/s have blinded people. No eye may be where such a ball can reach it.",
        .trigger = "energy per cross-section of 19000 J/m2 or more, or not known",
        .source = "Bullock et al. 1997 for the cases; Duma 2005 and Kennedy 2006 for the curves",
        .read_at = "ncbi.nlm.nih.gov/pubmed/9160038 (cases)",
        .status = ReadStatus::from_memory,
        .status_note = "cases read; curves from memory, rupture 23 771 or 35 519 J/m2",
    },
    Caution{
        .id = "eye_protection_high",
        .group = CautionGroup::eyes,
        .hazard = "No common eyewear covers a direct ball",
        .text = "From 15.5 J a ball exceeds the strongest usual eye and face rating (class A). "
                "Only distance and a solid screen protect; eyewear is the last layer.",
        .trigger = "energy of 15.5 J or more, or not known",
        .source = en166,
        .read_at = en166_read_at,
        .status = ReadStatus::computed,
        .status_note = "test of class A read (0.86 g at 190 m/s), joules computed",
    },
    Caution{
        .id = "eye_protection_mid",
        .group = CautionGroup::eyes,
        .hazard = "Goggles too weak for a direct ball",
        .text = "From 6.2 J a ball carries at least as much as goggles of impact class B are "
                "proved with. Wear a face shield over goggles and stay behind a screen.",
        .trigger = "energy of 6.19 J or more, or not known",
        .source = en166,
        .read_at = en166_read_at,
        .status = ReadStatus::computed,
        .status_note = "0.86 g at 120 m/s read, joules computed; B for goggles from memory",
    },
    Caution{
        .id = "eye_protection_low",
        .group = CautionGroup::eyes,
        .hazard = "Eye injury, eyewear energy exceeded by a direct ball",
        .text = "Impact-rated goggles with side cover are required for everybody. From 1.1 J a "
                "ball carries more than lightly rated spectacles are proved with (EN 166 F 0.87 J, "
                "Z87+ 1.1 J), so they protect against chips, not against the ball.",
        .trigger = "energy of 0.87 J or more, or not known",
        .source = "EN 166, as printed in BR 192, table 8; ANSI Z87.1, 2003 edition",
        .read_at = "regelwerke.vbg.de, br192, table 8; workingperson.me; ishn.com/articles/86892",
        .status = ReadStatus::computed,
        .status_note = "test speeds read, joules computed",
    },
    Caution{
        .id = "pvc_pressure",
        .group = CautionGroup::launcher,
        .hazard = "Plastic pipe bursts into shards when pressurised with air",
        .text = "Do not put compressed air or gas in PVC or CPVC pipe. Piping codes forbid it, "
                "makers disclaim it, and cold or knocked pipe shatters.",
        .trigger = "launcher is compressed air, other or not stated",
        .source = "ASME B31.3 A323.4.2 and B31.9 923.3.2, quoted by OSHA; Washington L&I hazard "
                  "alert 902",
        .read_at = "jjkellercompliancenetwork.com; lni.wa.gov/safety/hazardalerts/902.asp",
        .status = ReadStatus::read,
        .status_note = "codes read as quoted; that cold makes it worse is common practice",
    },
    Caution{
        .id = "stored_air_energy",
        .group = CautionGroup::launcher,
        .hazard = "Energy stored in any air reservoir",
        .text =
            "The reservoir can hold tens to hundreds of times the ball's energy. Use only a "
            "pressure vessel approved and marked for its pressure, with relief valve and gauge, "
            "far from people, release it before approaching, and wear hearing protection.",
        .trigger = "launcher is compressed air, other or not stated",
        .source = "isentropic expansion, p V / 0.4 (1 - (pa / p)^0.2857)",
        .read_at = "industrialmonitordirect.com (formula)",
        .status = ReadStatus::computed,
        .status_note = "formula read, energies computed; the page's own example is wrong",
    },
    Caution{
        .id = "air_misfire",
        .group = CautionGroup::launcher,
        .hazard = "Blocked barrel or accidental discharge",
        .text = "Never look or reach into the muzzle. Vent and disconnect the energy source before "
                "clearing a stuck or melted ball.",
        .trigger = "launcher is compressed air, spring, other or not stated",
        .status = ReadStatus::common_practice,
    },
    Caution{
        .id = "elastic_launcher",
        .group = CautionGroup::launcher,
        .hazard = "Rubber bands or springs break or recoil",
        .text = "Bands age and snap toward the operator. Inspect before each session, draw away "
                "from the face, release with a cord from the side, wear goggles and a face shield.",
        .trigger = "launcher is sling, elastic, spring, other or not stated",
        .source = "reports of users of slings; water-balloon injuries",
        .read_at = "studyhills.com/topic/720; legalexaminer.com, water-balloon page",
        .status = ReadStatus::read,
        .status_note = "the release from the side is ours",
    },
    Caution{
        .id = "ball_machine",
        .group = CautionGroup::launcher,
        .hazard = "Ball-throwing machine throws wet ice unpredictably",
        .text = "These machines are made for their own dry balls; wet ones slip and veer, and ice "
                "may crush in the wheels. Keep everyone behind, never reach in, and switch off and "
                "unplug to clear it.",
        .trigger = "launcher is ball machine or not stated",
        .source = "batting-cage rules of a club; a coaches' forum",
        .read_at = "lcjbsa.org batting-cage rules; letstalkpitching.com/t/6105",
        .status = ReadStatus::read,
        .status_note = "the remark on ice is ours",
    },
    Caution{
        .id = "drop_height",
        .group = CautionGroup::launcher,
        .hazard = "Fall while dropping balls from a ladder, roof or window",
        .text = "Falls from below 2 m kill people every year. Use a guided tube from a protected "
                "edge, not a ladder, with a cordon below. A 3 m drop gives only about a tenth of "
                "the 25 mm standard hail energy anyway.",
        .trigger = "launcher is drop or not stated",
        .source = "US fatal falls at work in 2013 (BLS); OSHA heights of 4 ft and 6 ft",
        .read_at = "riskmanagement365.com; onesourcestaffing.com",
        .status = ReadStatus::read,
        .status_note = "share of energy computed; shown at any height",
    },
    Caution{
        .id = "law_launchers",
        .group = CautionGroup::launcher,
        .hazard = "Launcher may be a regulated weapon",
        .text =
            "In some places a barrelled launcher above a set energy (1 J in the United Kingdom) "
            "counts as a firearm, and rules differ by country, region and town. Ask the local "
            "authority before building or using one. This tool gives no legal advice.",
        .trigger = "launcher is compressed air, spring, elastic, other or not stated",
        .source = "Policing and Crime Act 2017, s. 125",
        .read_at = "legislation.gov.uk/ukpga/2017/3/section/125",
        .status = ReadStatus::read,
        .status_note = "for the United Kingdom; elsewhere it varies, so it is shown at any energy",
    },
    Caution{
        .id = "dc_elv",
        .group = CautionGroup::panel,
        .hazard = "Out of the extra-low-voltage range",
        .text = "Above 120 V DC the circuit is not extra-low voltage. Do not proceed.",
        .trigger = "cold open-circuit voltage above 120 V",
        .source = "IEV, definition of SELV; IEC 61140, 7.4",
        .read_at = "std.iec.ch; mail-archive.com, emc-pstc",
        .status = ReadStatus::read,
        .status_note = "IEC 61140 read as quoted",
    },
    Caution{
        .id = "dc_dry",
        .group = CautionGroup::panel,
        .hazard = "Electric shock, dry skin",
        .text = "From 60 V DC even dry contact is above common touch limits. Home reviewers should "
                "stop and leave the wiring to a qualified person.",
        .trigger = "cold open-circuit voltage of 60 V or more",
        .source = "IEC 60598-1 (60 V); IEC 61201, dry (70 V)",
        .read_at = "bbs.angui.org; mail-archive.com, emc-pstc",
        .status = ReadStatus::read,
        .status_note = "both read as quoted; they disagree, 60 or 70 V",
    },
    Caution{
        .id = "dc_class3",
        .group = CautionGroup::panel,
        .hazard = "Above the low-voltage class",
        .text =
            "Above about 35 V a panel is no longer in the lowest protection class of the current "
            "safety standard (50 V in the 2004 edition). Handle leads as live conductors.",
        .trigger = "cold open-circuit voltage of 35 V or more",
        .source = "IEC 61730-1:2016, class III; IEC 61730:2004, class C",
        .read_at = "m448.com (slides on the 2004 edition)",
        .status = ReadStatus::from_memory,
        .status_note = "35 V from memory, 50 V read",
    },
    Caution{
        .id = "dc_wet",
        .group = CautionGroup::panel,
        .hazard = "Electric shock, wet or damaged surface",
        .text = "At 30 V DC and above treat any wet or cracked panel as able to shock; take an "
                "unknown voltage as higher. Keep hands off, cover the panel, dry it, use insulated "
                "gloves. Meltwater from the ice counts as wet.",
        .trigger = "cold open-circuit voltage of 30 V or more, or not known",
        .source = "panel makers' pages; UL 1703, IEC 61201 (wet), IEC 60364-4-41 414.4.5",
        .read_at = "a panel maker's manual, p. 8; solarexpert.com/PVwarning.html; "
                   "mail-archive.com, emc-pstc",
        .status = ReadStatus::read,
        .status_note = "30 V read in makers' pages, standards as quoted; IEC 60364 from memory",
    },
    Caution{
        .id = "broken_glass",
        .group = CautionGroup::panel,
        .hazard = "Cuts, glass dust, and live broken panel",
        .text = "Do not use or charge from this panel again; any surface of it may shock. "
                "Cut-resistant gloves, goggles and closed shoes; tape the glass, bag it, keep dry "
                "and dark.",
        .trigger = "glass, sheet or laminate broken",
        .source = "two panel makers' manuals",
        .read_at = "two panel makers' manuals, p. 3 and p. 7",
        .status = ReadStatus::read,
        .status_note = "gloves, goggles and shoes are common practice",
    },
    Caution{
        .id = "pv_energised",
        .group = CautionGroup::panel,
        .hazard = "Panel makes voltage whenever light falls on it, also when broken",
        .text = "Cover the face with a secured opaque sheet, or work in darkness, before touching "
                "leads. Disconnect everything before the shots.",
        .trigger = "every test of a panel",
        .source = "a safety adviser's article; a panel maker's manual, p. 7",
        .read_at = "ehsdailyadvisor.blr.com, 2022/07; a panel maker's manual, p. 7",
        .status = ReadStatus::read,
    },
    Caution{
        .id = "arc",
        .group = CautionGroup::panel,
        .hazard = "Arc and burn on unplugging under load",
        .text = "Switch the load off or cover the panel before separating plugs; PV plugs are not "
                "made to break current.",
        .trigger = "every test of a panel",
        .source = "IEC 62852, scope; EN 50521, marking",
        .read_at = "standards.iteh.ai, en-62852-2015; studylib.net/doc/18668320",
        .status = ReadStatus::read,
    },
    Caution{
        .id = "installed_array",
        .group = CautionGroup::panel,
        .hazard = "Testing installed or roof panels",
        .text = "Never shoot at installed panels. String voltages reach hundreds of volts, damage "
                "spreads, and falls and leaks follow. Test a loose, bought-for-the-test panel.",
        .trigger = "launch at a panel, or a stress of one, not known to be loose",
        .status = ReadStatus::common_practice,
    },
    Caution{
        .id = "hv_test",
        .group = CautionGroup::panel,
        .hazard = "Insulation or high-voltage testing",
        .text = "Insulation tests in standards use 500 V or more. Do not do this at home; ask a "
                "laboratory.",
        .trigger = "test of a panel, unless an insulation test is ruled out",
        .source = "an article on wet-leakage tests (500 V; 400 M-ohm, 40 M-ohm m2)",
        .read_at = "photon.info, wet-leakage page",
        .status = ReadStatus::ours,
        .status_note = "voltages read; the ban is ours",
    },
    Caution{
        .id = "hot_surface",
        .group = CautionGroup::panel,
        .hazard = "Burns from sun-heated panel",
        .text = "Touch with gloves. At 60 degC or more, metal can burn skin within seconds.",
        .trigger = "panel at 50 degC or more, or its temperature not known",
        .source = "ISO 13732-1; heating in the sun after Ross",
        .read_at = "paperzz.com/doc/9131797 (heating in the sun)",
        .status = ReadStatus::from_memory,
        .status_note = "heating read; burn limits from memory; the 50 degC is ours",
    },
    Caution{
        .id = "power_station_voltage",
        .group = CautionGroup::panel,
        .hazard = "Destroyed power station or charge controller",
        .text = "Compare the coldest open-circuit voltage of all panels in series with the input's "
                "maximum. Too many volts can destroy the input instantly; spare watts do not.",
        .trigger = "load is a power station or charge controller",
        .source = "sellers' pages on input limits",
        .read_at = "offsetsolar.com; portableenergylab.com, input-limits page",
        .status = ReadStatus::read,
        .status_note = "weak sources; nothing better could be read",
    },
    Caution{
        .id = "thermal_shock",
        .group = CautionGroup::panel,
        .hazard = "Cold ice on hot glass breaks it by thermal shock",
        .text = "Shade the panel and let it reach room temperature before shooting, or the result "
                "mixes two causes.",
        .trigger = "panel above 35 degC at the shots, or its temperature not known",
        .source = "IEC 61215-2, hail test at room temperature",
        .status = ReadStatus::ours,
        .status_note = "standard from memory; the 35 degC is ours",
    },
    Caution{
        .id = "dry_ice",
        .group = CautionGroup::ice,
        .hazard = "Frostbite, suffocation or bursting container with dry ice",
        .text = "Dry ice is about -78 degC. Use thick dry gloves and eyewear, good ventilation, "
                "never a sealed container, never a domestic freezer or a closed car or cellar, and "
                "keep away from children. Ten kilograms make about five cubic metres of gas.",
        .trigger = "dry ice used, or balls below -30 degC or of unknown temperature",
        .source = "a gas supplier's page and a dry-ice seller's page",
        .read_at = "linde-gas.se, handling_ice; dryicesupplies.com.au/safety",
        .status = ReadStatus::read,
        .status_note = "taking balls below -30 degC as cooled by dry ice is ours",
    },
    Caution{
        .id = "ice_handling",
        .group = CautionGroup::ice,
        .hazard = "Cold skin injury, sharp edges, slippery floor",
        .text = "Use dry gloves or tongs, both to protect skin and to keep the ball from melting "
                "or cracking, and wipe up meltwater at once.",
        .trigger = "every launch of ice",
        .status = ReadStatus::common_practice,
    },
    Caution{
        .id = "hot_spot",
        .group = CautionGroup::afterwards,
        .hazard = "Struck cells overheat in sun; fire risk",
        .text =
            "Do not leave a struck panel charging unattended, nor on or near anything that burns. "
            "Watch for hot patches, smell, brown marks; cover it and disconnect if seen.",
        .trigger = "every test of a panel",
        .source = "IEC 61215, criteria of the hot-spot test",
        .read_at = "woaifanyi.com (translated page)",
        .status = ReadStatus::ours,
        .status_note = "criteria read; the rule is ours",
    },
    Caution{
        .id = "reuse_tested_panel",
        .group = CautionGroup::afterwards,
        .hazard = "Hidden damage in a panel that still works",
        .text = "A panel that kept its power may still have cracked cells or weak insulation. Mark "
                "it as tested, do not sell it as sound, do not put it on a roof or vehicle, and do "
                "not leave it connected unattended.",
        .trigger = "every test of a panel",
        .source = "ASTM E1799, 4.2 (visible and electrical changes need not agree)",
        .read_at = "ndls.org.cn",
        .status = ReadStatus::ours,
        .status_note = "clause read; the rule is ours",
    },
    Caution{
        .id = "heavy_metals",
        .group = CautionGroup::afterwards,
        .hazard = "Lead and sometimes cadmium in waste panel",
        .text = "Hand it in as electronic waste; never bin, burn or grind it, and ask the maker "
                "about cadmium for thin-film types.",
        .trigger = "every test of a panel",
        .source = "a summary of leaching tests; EPA/60Q/R-23/186",
        .read_at = "coopercenter.org",
        .status = ReadStatus::read,
    },
    Caution{
        .id = "claims",
        .group = CautionGroup::afterwards,
        .hazard = "Readers take a home result as a certificate",
        .text = "State that this is a one-sample home test, not certification or a lifetime "
                "forecast, and give level, uncertainty, and limits.",
        .trigger = "every publication",
        .source = "ISO/IEC 17025:2017, 7.8.2.1 l",
        .read_at = "muhaz.org, page 42",
        .status = ReadStatus::read,
    },
};

}  // namespace

std::span<const Caution> usual_cautions() {
  return cautions;
}

}  // namespace hailwright
