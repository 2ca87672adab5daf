#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/source.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/evaluate/reader_limit.hpp"
#include "hailwright/metrology/estimate.hpp"
#include "hailwright/report/document.hpp"
#include "hailwright/tables/impact_grades.hpp"

namespace hailwright {

/// A judged test for the writers.
struct Judged {
  const Test* test = nullptr;
  const Assessment* assessment = nullptr;
  const ReaderLimit* reader_limit = nullptr;  ///< nullptr: none was asked about
};

/// The verdict on one or more records: the words first, then what was delivered, what changed, what
/// could have been seen, the budget, what was assumed, cautions. Places in files are named after
/// `sources`.
Document compose_judgement(const std::vector<Judged>& judged, const SourceSet& sources);

/// The published grades, with computed energy beside the printed one and how each was read.
/// `scheme` empty: all.
Document compose_grades(std::string_view scheme);
/// The same as one table for machines, numbers in SI-based fixed units named in the titles.
Table grades_table(std::string_view scheme);
std::string grades_json(std::string_view scheme);

/// Every source that a number of the program rests on, and how it was read.
Document compose_sources();

/// One shot from the command line.
struct ShotQuestion {
  std::optional<Estimate<Mass>> mass;  ///< weighed; else from the diameter
  Estimate<Length> diameter;
  Estimate<Speed> speed;
  std::optional<Angle> angle;
  std::string scheme;           ///< of the grades to compare with
  bool mass_assumed_u = false;  ///< no uncertainty was given for the mass
  bool speed_assumed_u = false;
};

/// A shot beside one published grade.
struct GradeShare {
  const Grade* grade = nullptr;
  Estimate<Ratio> share;  ///< of the grade's energy
};

/// What a shot carries, and beside what.
struct ShotAnswer {
  ShotQuestion question;
  Estimate<Mass> mass;
  bool mass_from_diameter = false;
  Estimate<Density> density;  ///< that mass and diameter imply
  bool density_believable = true;
  Estimate<Energy> energy;
  Estimate<Momentum> momentum;
  std::optional<Ratio> normal_share;
  EnergyPerArea per_area;
  std::vector<GradeShare> grades;
  Length hailstone_smallest, hailstone_largest;
  std::vector<const Caution*> cautions;
};

/// Computes a shot; mass, diameter and speed above zero.
ShotAnswer answer_shot(const ShotQuestion& question);
Document compose_shot(const ShotAnswer& answer);
std::string shot_json(const ShotAnswer& answer);

}  // namespace hailwright
