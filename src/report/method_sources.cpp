#include "report/method_sources.hpp"

#include <array>

namespace hailwright {

namespace {

constexpr Citation normalised_power_method{
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

constexpr Citation partial_shading{
    .id = "method-partial-shading",
    .title = "Partial shading: ratio of two powers read the one after the other; bypass diodes by "
             "Voc over the number of substrings, from an I-V tracer maker's manual",
    .read_at = "manualshive.com, manual 1316316, page 91",
    .status = ReadStatus::read,
    .note = "docs/methods/partial-shading.md; the rule for the diodes was read, the tolerance of "
            "20 % is ours"};

constexpr Citation sessions_by_meter{
    .id = "method-sessions-by-meter",
    .title = "Sessions by meter: mean power and ratio of energies, JCGM 100:2008, 5.1.2 and 5.1.6",
    .read_at = "",
    .status = ReadStatus::from_memory,
    .note = "docs/methods/sessions-by-meter.md; that two ends stand for the time between them as a "
            "rectangle is ours"};

constexpr Citation loss_pattern{
    .id = "method-loss-pattern",
    .title = "What a loss looks like: single-diode model with five parameters, De Soto et al. 2006 "
             "(Solar Energy 80, 78); generalised least squares, averaged likelihoods",
    .read_at = "",
    .status = ReadStatus::from_memory,
    .note = "docs/methods/loss-pattern.md; the choice of patterns, sizes and bounds is ours"};

constexpr Citation line_up{
    .id = "method-line-up",
    .title =
        "Panels side by side: step-down adjustment of p values, S Holm, Scandinavian Journal of "
        "Statistics 6 (1979) 65; intervals after Bonferroni",
    .read_at = "",
    .status = ReadStatus::from_memory,
    .note = "docs/methods/line-up.md; adjusted values computed by R as well; ranks as ranges and "
            "which pairs are compared are ours"};

constexpr Citation threshold{
    .id = "method-threshold",
    .title =
        "Damage threshold: probit by maximum likelihood (C I Bliss, Ann. Appl. Biol. 22 (1935) "
        "134), profile likelihood, up-and-down test of Dixon and Mood 1948",
    .read_at = "https://doi.org/10.1080/08982112.2018.1551547",
    .status = ReadStatus::read,
    .note =
        "docs/methods/threshold.md; read: a worked example of the probit (Hamada, Mang and Hoff "
        "2019), and the sums of Dixon and Mood as quoted by Caliskan et al. 2021; Bliss 1935 "
        "from memory"};

constexpr Citation stresses{
    .id = "method-stresses",
    .title =
        "Stresses other than hail: weight over area, arc over angle, bucket over time; guarded "
        "acceptance as for a shot, JCGM 106:2012",
    .read_at = "",
    .status = ReadStatus::ours,
    .note = "docs/methods/stresses.md; the sums are textbook mechanics, the tolerance of 5 % is "
            "ours, the levels stand under their own sources"};

constexpr std::array all{normalised_power_method,
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
                         two_logs,
                         partial_shading,
                         sessions_by_meter,
                         loss_pattern,
                         line_up,
                         threshold,
                         stresses};

}  // namespace

std::span<const Citation> method_sources() {
  return all;
}

}  // namespace hailwright
