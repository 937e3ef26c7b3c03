#include "money/money.hpp"

#include "tables/materials.hpp"

namespace awlmark::money {

Stakes stakes_of(const Job& job) {
  const auto given = [&](std::optional<double> Rates::*member, const char* id) {
    if (job.rates && (*job.rates).*member) return *((*job.rates).*member);
    return tables::rate(id).value;
  };
  Stakes stakes;
  stakes.leave_unsound_per_sf = given(&Rates::leave_unsound_per_sf, "leave_unsound_per_sf");
  stakes.tear_out_sound_per_sf = given(&Rates::tear_out_sound_per_sf, "tear_out_sound_per_sf");
  stakes.opening = given(&Rates::opening, "opening");
  stakes.labour_per_hour = given(&Rates::labour_per_hour, "labour_per_hour");
  stakes.patch_per_opening = tables::rate("patch_per_opening").value;
  stakes.only_toilet_per_day = tables::rate("only_toilet_per_day").value;
  stakes.rip_per_ft = tables::rate("rip_per_ft").value;
  stakes.cross_on_support_per_ft = tables::rate("cross_on_support_per_ft").value;
  stakes.cross_in_air_per_ft = tables::rate("cross_in_air_per_ft").value;
  stakes.blocking_per_ft = tables::rate("blocking_per_ft").value;
  return stakes;
}

}  // namespace awlmark::money
