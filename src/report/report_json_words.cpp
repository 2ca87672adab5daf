#include "report/report_json_words.hpp"

#include "evaluate/power_inputs.hpp"
#include "hailwright/core/contract.hpp"

namespace hailwright::json {

std::string_view word(DamageBy value) {
  switch (value) {
  case DamageBy::at_grade:
    return "at_grade";
  case DamageBy::perhaps_harder:
    return "perhaps_harder";
  case DamageBy::below_grade:
    return "below_grade";
  }
  fail_contract("unknown DamageBy");
}

std::string_view word(Reason value) {
  switch (value) {
  case Reason::new_major_defect:
    return "new_major_defect";
  case Reason::power_beyond:
    return "power_beyond";
  case Reason::places_missing:
    return "places_missing";
  case Reason::no_look_before:
    return "no_look_before";
  case Reason::no_look_after:
    return "no_look_after";
  case Reason::cell_share_not_stated:
    return "cell_share_not_stated";
  case Reason::power_missing:
    return "power_missing";
  case Reason::power_obstacle:
    return "power_obstacle";
  case Reason::power_not_deciding:
    return "power_not_deciding";
  case Reason::power_not_valid:
    return "power_not_valid";
  case Reason::power_undecided:
    return "power_undecided";
  case Reason::damaged_before:
    return "damaged_before";
  case Reason::nothing_struck:
    return "nothing_struck";
  case Reason::defect_from_start:
    return "defect_from_start";
  case Reason::extended:
    return "extended";
  case Reason::with_a_stress:
    return "with_a_stress";
  case Reason::all_places_struck:
    return "all_places_struck";
  case Reason::looks_clean:
    return "looks_clean";
  case Reason::power_within:
    return "power_within";
  }
  fail_contract("unknown Reason");
}

std::string_view word(StrengthDoubt value) {
  switch (value) {
  case StrengthDoubt::none:
    return "none";
  case StrengthDoubt::mass_unknown:
    return "mass_unknown";
  case StrengthDoubt::mass_from_diameter:
    return "mass_from_diameter";
  case StrengthDoubt::mass_low:
    return "mass_low";
  case StrengthDoubt::speed_unknown:
    return "speed_unknown";
  case StrengthDoubt::few_trials:
    return "few_trials";
  case StrengthDoubt::speed_nominal:
    return "speed_nominal";
  case StrengthDoubt::speed_low:
    return "speed_low";
  case StrengthDoubt::diameter_unknown:
    return "diameter_unknown";
  case StrengthDoubt::diameter_off:
    return "diameter_off";
  }
  fail_contract("unknown StrengthDoubt");
}

std::string_view word(Landing value) {
  switch (value) {
  case Landing::in:
    return "in";
  case Landing::miss:
    return "miss";
  case Landing::broke:
    return "broke";
  case Landing::offset:
    return "offset";
  case Landing::at:
    return "at";
  }
  fail_contract("unknown Landing");
}

std::string_view word(StageKind value) {
  switch (value) {
  case StageKind::before:
    return "before";
  case StageKind::after_series:
    return "after_series";
  case StageKind::after_stress:
    return "after_stress";
  case StageKind::after:
    return "after";
  case StageKind::later:
    return "later";
  case StageKind::baseline:
    return "baseline";
  }
  fail_contract("unknown StageKind");
}

std::string_view word(Role value) {
  switch (value) {
  case Role::struck:
    return "struck";
  case Role::control:
    return "control";
  case Role::sibling:
    return "sibling";
  }
  fail_contract("unknown Role");
}

std::string_view word(Answer value) {
  switch (value) {
  case Answer::yes:
    return "yes";
  case Answer::no:
    return "no";
  case Answer::undecided:
    return "undecided";
  }
  fail_contract("unknown Answer");
}

std::string_view word(PowerObstacle value) {
  switch (value) {
  case PowerObstacle::none:
    return "none";
  case PowerObstacle::no_reading_before:
    return "no_reading_before";
  case PowerObstacle::no_reading_after:
    return "no_reading_after";
  case PowerObstacle::no_replication:
    return "no_replication";
  case PowerObstacle::redone_not_stated:
    return "redone_not_stated";
  case PowerObstacle::part_not_redone:
    return "part_not_redone";
  case PowerObstacle::part_not_stated:
    return "part_not_stated";
  case PowerObstacle::one_reading:
    return "one_reading";
  case PowerObstacle::no_control_pair:
    return "no_control_pair";
  case PowerObstacle::no_sibling:
    return "no_sibling";
  case PowerObstacle::siblings_set_up_once:
    return "siblings_set_up_once";
  case PowerObstacle::one_sibling_set:
    return "one_sibling_set";
  case PowerObstacle::trend_needs_setups:
    return "trend_needs_setups";
  }
  fail_contract("unknown PowerObstacle");
}

// NOLINTNEXTLINE(readability-function-size): in a switch the compiler sees a forgotten remark
std::string_view word(PowerRemark value) {
  switch (value) {
  case PowerRemark::fixed_load:
    return "fixed_load";
  case PowerRemark::battery_full:
    return "battery_full";
  case PowerRemark::few_units:
    return "few_units";
  case PowerRemark::spread_not_measured:
    return "spread_not_measured";
  case PowerRemark::display_too_coarse:
    return "display_too_coarse";
  case PowerRemark::sun_display_too_coarse:
    return "sun_display_too_coarse";
  case PowerRemark::power_gained:
    return "power_gained";
  case PowerRemark::control_moved:
    return "control_moved";
  case PowerRemark::baseline_moved:
    return "baseline_moved";
  case PowerRemark::methods_disagree:
    return "methods_disagree";
  case PowerRemark::not_following_sun:
    return "not_following_sun";
  case PowerRemark::low_irradiance:
    return "low_irradiance";
  case PowerRemark::irradiance_differs:
    return "irradiance_differs";
  case PowerRemark::unsteady_irradiance:
    return "unsteady_irradiance";
  case PowerRemark::unsteady_temperature:
    return "unsteady_temperature";
  case PowerRemark::temperature_differs:
    return "temperature_differs";
  case PowerRemark::incidence_large:
    return "incidence_large";
  case PowerRemark::incidence_changed:
    return "incidence_changed";
  case PowerRemark::short_time_in_sun:
    return "short_time_in_sun";
  case PowerRemark::not_clean:
    return "not_clean";
  case PowerRemark::other_leads:
    return "other_leads";
  case PowerRemark::not_pre_exposed:
    return "not_pre_exposed";
  case PowerRemark::soon_after_shots:
    return "soon_after_shots";
  case PowerRemark::not_stated:
    return "not_stated";
  case PowerRemark::battery_not_stated:
    return "battery_not_stated";
  case PowerRemark::baseline_not_checked:
    return "baseline_not_checked";
  case PowerRemark::variances_differ:
    return "variances_differ";
  case PowerRemark::other_instrument:
    return "other_instrument";
  case PowerRemark::stated_smaller_than_observed:
    return "stated_smaller_than_observed";
  case PowerRemark::tools_not_said:
    return "tools_not_said";
  case PowerRemark::outlying_reading:
    return "outlying_reading";
  case PowerRemark::extended:
    return "extended";
  case PowerRemark::more_setups_than_planned:
    return "more_setups_than_planned";
  case PowerRemark::trend_fitted:
    return "trend_fitted";
  }
  fail_contract("unknown PowerRemark");
}

std::string_view word(RemarkWeight value) {
  switch (value) {
  case RemarkWeight::note:
    return "note";
  case RemarkWeight::warning:
    return "warning";
  case RemarkWeight::blocks_limit:
    return "blocks_limit";
  case RemarkWeight::not_valid:
    return "not_valid";
  case RemarkWeight::no_verdict:
    return "no_verdict";
  }
  fail_contract("unknown RemarkWeight");
}

std::string_view word(Comparison value) {
  switch (value) {
  case Comparison::same_panel:
    return "same-panel";
  case Comparison::control_panel:
    return "control-panel";
  case Comparison::sibling_panel:
    return "sibling-panel";
  }
  fail_contract("unknown Comparison");
}

std::string_view word(MaximumPower value) {
  switch (value) {
  case MaximumPower::sweep:
    return "sweep";
  case MaximumPower::tracker_settled:
    return "tracker settled";
  case MaximumPower::fixed_load:
    return "fixed load";
  }
  fail_contract("unknown MaximumPower");
}

std::string_view word(Redone value) {
  return hailwright::word(value);
}

std::string_view word(Launcher value) {
  switch (value) {
  case Launcher::sling:
    return "sling";
  case Launcher::elastic:
    return "elastic";
  case Launcher::spring:
    return "spring";
  case Launcher::compressed_air:
    return "compressed air";
  case Launcher::ball_machine:
    return "ball machine";
  case Launcher::drop:
    return "drop";
  case Launcher::throw_by_hand:
    return "thrown by hand";
  case Launcher::other:
    return "other";
  }
  fail_contract("unknown Launcher");
}

std::string_view word(SpeedSource value) {
  switch (value) {
  case SpeedSource::trial_shots:
    return "trial shots";
  case SpeedSource::each_shot:
    return "each shot";
  case SpeedSource::drop:
    return "drop";
  case SpeedSource::setting:
    return "setting";
  }
  fail_contract("unknown SpeedSource");
}

std::string_view word(SpeedWay value) {
  switch (value) {
  case SpeedWay::typed:
    return "typed";
  case SpeedWay::frames:
    return "frames";
  case SpeedWay::positions:
    return "positions";
  case SpeedWay::gates:
    return "gates";
  case SpeedWay::radar:
    return "radar";
  case SpeedWay::sounds:
    return "sounds";
  }
  fail_contract("unknown SpeedWay");
}

std::string_view word(SensorPlace value) {
  switch (value) {
  case SensorPlace::back:
    return "back";
  case SensorPlace::cell:
    return "cell";
  case SensorPlace::front:
    return "front";
  }
  fail_contract("unknown SensorPlace");
}

std::string_view word(Build value) {
  switch (value) {
  case Build::framed_glass:
    return "framed glass";
  case Build::frameless_glass:
    return "frameless glass";
  case Build::flexible:
    return "flexible";
  }
  fail_contract("unknown Build");
}

std::string_view word(Gravity value) {
  switch (value) {
  case Gravity::major:
    return "major";
  case Gravity::minor:
    return "minor";
  case Gravity::by_share:
    return "by_share";
  }
  fail_contract("unknown Gravity");
}

std::string_view word(Scope value) {
  switch (value) {
  case Scope::reading:
    return "reading";
  case Scope::setup:
    return "set_up";
  case Scope::day:
    return "day";
  case Scope::stage:
    return "stage";
  case Scope::record:
    return "record";
  }
  fail_contract("unknown Scope");
}

std::string_view word(Evaluation value) {
  switch (value) {
  case Evaluation::type_a:
    return "type_a";
  case Evaluation::type_b:
    return "type_b";
  }
  fail_contract("unknown Evaluation");
}

std::string_view word(Shape value) {
  switch (value) {
  case Shape::normal:
    return "normal";
  case Shape::rectangular:
    return "rectangular";
  case Shape::triangular:
    return "triangular";
  case Shape::arcsine:
    return "arcsine";
  }
  fail_contract("unknown Shape");
}

}  // namespace hailwright::json
