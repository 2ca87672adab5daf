#include "report/method_sources.hpp"

#include <array>

namespace hailwright {

namespace {

constexpr Citation normalised_power{
    .id = "method-normalised-power",
    .title = "Normalised power: inverse of P = (G/1000) P0 (1 + gamma (Tc - 25)), with the back to "
             "cell relation of King et al. 2004 (SAND2004-3535)",
    .read_at = "https://pvlib-python.readthedocs.io/en/v0.13.1/reference/generated/"
               "pvlib.pvsystem.pvwatts_dc.html",
    .status = ReadStatus::read,
    .note = "docs/methods/normalised-power.md; read in the documentation of an open library, the "
            "report of 2004 was not seen"};

constexpr Citation measuring_conditions{
    .id = "method-measuring-conditions",
    .title = "Readings that count: bounds on sun, temperature, angle and time",
    .read_at = "",
    .status = ReadStatus::ours,
    .note = "docs/measurement.md, M9"};

constexpr Citation setup_scatter{
    .id = "method-setup-scatter",
    .title = "Scatter of the set-ups: pooled two-sample comparison, JCGM 100:2008, 4.2.4",
    .read_at = "",
    .status = ReadStatus::from_memory,
    .note = "docs/methods/setup-scatter.md"};

constexpr Citation control_and_siblings{
    .id = "method-control-and-siblings",
    .title = "Control and siblings: differences of panels read together; prediction of one unit "
             "from m others",
    .read_at = "",
    .status = ReadStatus::computed,
    .note = "docs/methods/control-and-siblings.md; a derivation"};

constexpr Citation drift{.id = "method-drift",
                         .title =
                             "Drift: double substitution, R S Davis, J. Res. NBS 92(3) 239, 1987",
                         .read_at = "https://pmc.ncbi.nlm.nih.gov/articles/PMC5286969",
                         .status = ReadStatus::read,
                         .note = "docs/methods/drift.md"};

constexpr Citation instruments_and_scopes{
    .id = "method-instruments-and-scopes",
    .title = "Instruments and scopes: JCGM 100:2008, 4.3.7, 5.1.2 and F.1.2.3",
    .read_at = "",
    .status = ReadStatus::from_memory,
    .note = "docs/methods/instruments-and-scopes.md; clauses from memory, the examples of Annex H "
            "read in reproductions"};

constexpr Citation interval_and_decision{
    .id = "method-interval-and-decision",
    .title = "Interval and decision: JCGM 100:2008, G.3 and G.4; guard bands of JCGM 106:2012, 8.3",
    .read_at = "",
    .status = ReadStatus::from_memory,
    .note = "docs/methods/interval-and-decision.md; the risk of a guard band as wide as the "
            "expanded uncertainty was read in ILAC-G8:09/2019"};

constexpr Citation smallest_loss{
    .id = "method-smallest-loss",
    .title = "Smallest loss shown: detection limit by the non-central t (ISO 11843)",
    .read_at = "",
    .status = ReadStatus::from_memory,
    .note = "docs/methods/smallest-loss.md"};

constexpr Citation looks_and_extension{
    .id = "method-looks-and-extension",
    .title = "Looks and extension: Bonferroni's inequality, the same share for each look",
    .read_at = "",
    .status = ReadStatus::ours,
    .note = "docs/methods/looks-and-extension.md; the choice of equal shares is ours"};

constexpr Citation random_trials{
    .id = "method-random-trials",
    .title = "Random trials: JCGM 101:2008, 6.4, 7.9.2, 7.9.4 and clause 8",
    .read_at = "",
    .status = ReadStatus::from_memory,
    .note = "docs/methods/random-trials.md; read in two implementations, constants from memory"};

constexpr Citation outlying_readings{
    .id = "method-outlying-readings",
    .title = "Outlying readings: generalised extreme Studentised deviate test, Rosner 1983, "
             "Technometrics 25, 165",
    .read_at = "NIST/SEMATECH e-Handbook, 1.3.5.17.3, in reproductions",
    .status = ReadStatus::read,
    .note = "docs/methods/outlying-readings.md; the risk of 1 % a set-up is ours"};

constexpr Citation shot_strength{
    .id = "method-shot-strength",
    .title = "Strength of a shot: JCGM 100:2008, 5.1.6; guarded acceptance, JCGM 106:2012",
    .read_at = "",
    .status = ReadStatus::from_memory,
    .note = "docs/methods/shot-strength.md, docs/speed.md, docs/flight.md and docs/balls.md"};

constexpr Citation places{.id = "method-places",
                          .title = "Places of a panel: found from its geometry",
                          .read_at = "",
                          .status = ReadStatus::ours,
                          .note = "docs/places.md"};

constexpr Citation hit_evidence{
    .id = "method-hit-evidence",
    .title = "Evidence on hits: exact one-sided bound of Clopper and Pearson",
    .read_at = "",
    .status = ReadStatus::from_memory,
    .note = "docs/methods/hit-evidence.md"};

constexpr Citation energy_of_a_log{
    .id = "method-energy",
    .title = "Energy from a log: trapezoid rule over steps that are no gaps; counters over resets",
    .read_at = "",
    .status = ReadStatus::computed,
    .note = "docs/methods/energy.md; the longest step that is bridged is ours"};

constexpr Citation readings_of_a_log{
    .id = "method-readings-from-a-log",
    .title = "Readings from a log: steady windows, effective number of autocorrelated readings",
    .read_at = "",
    .status = ReadStatus::ours,
    .note = "docs/methods/readings-from-a-log.md; docs/measurement.md, M2 and M9"};

constexpr Citation two_logs{
    .id = "method-two-logs",
    .title =
        "Two panels logged together: ratio of energies by windows, clocks by cross-correlation",
    .read_at = "",
    .status = ReadStatus::ours,
    .note = "docs/methods/two-logs.md"};

constexpr std::array all{normalised_power,
                         measuring_conditions,
                         setup_scatter,
                         control_and_siblings,
                         drift,
                         instruments_and_scopes,
                         interval_and_decision,
                         smallest_loss,
                         looks_and_extension,
                         random_trials,
                         outlying_readings,
                         shot_strength,
                         places,
                         hit_evidence,
                         energy_of_a_log,
                         readings_of_a_log,
                         two_logs};

}  // namespace

std::span<const Citation> method_sources() {
  return all;
}

}  // namespace hailwright
