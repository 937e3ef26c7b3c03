// What an opening is worth: expected loss of deciding now, less expected loss of deciding after the
// readings that the opening would give, in money. Knows nothing of the job document
// (candidates.hpp makes the looks and the stakes from it).
//
// The posterior mixture is matched by one joint Gaussian over stakes and looks (mean and covariance
// exact, the scales' uncertainty included). Each reading of a look has three outcomes with exact
// probabilities; after each the Gaussian is matched in moments (one step of expectation propagation)
// and the next reading is chained on. The tests hold this against nested Monte Carlo.
#pragma once

#include <cstddef>
#include <vector>

#include "survey/fit.hpp"

namespace awlmark::survey {

// A piece of wood about which one decides: leave it or take it out.
struct Stake {
  int node = 0;
  Point at_in;
  double area_sf = 0;
  double leave_unsound = 0;   // cost of leaving it when unsound, all of it
  double tear_out_sound = 0;  // cost of taking it out when sound
};

// Readings that one look gives, in order: an awl on rot with this noise, or (`measured`) a value of the
// place's own attribute with this noise: a meter, or an eye for stains.
struct Look {
  struct Reading {
    Place place;
    double noise_sd = 0.35;
    bool measured = false;
  };
  std::vector<Reading> readings;
};

// Expected loss of the better decision at a stake with this chance of unsound wood.
double loss_of(double p_unsound, const Stake& stake);

struct LookValue {
  double worth = 0;
  double decides_sf = 0;  // area whose decision has at least one chance in ten to turn
};

class LossModel {
 public:
  // Members are taken until `share` of the weight or `most` of them.
  LossModel(const Fit& fit, const std::vector<Stake>& stakes, std::size_t most, double share = 0.95);
  LossModel(const LossModel&) = delete;  // its parts point into it
  LossModel& operator=(const LossModel&) = delete;

  double loss_now() const { return loss_now_; }
  double chance(const Place& place) const;  // of unsound, by the matched Gaussian

  // Quick and rough, for ranking: readings taken as measurements with their noise.
  std::vector<double> screen(const std::vector<Look>& looks) const;
  // Two looks together, by the same rough measure.
  double screen_pair(const Look& a, const Look& b) const;
  // All outcomes of all readings, chained.
  LookValue value(const Look& look) const;

 private:
  struct Part {
    const Member* member;
    double weight;
    Covariance::Prepared stakes, marks;
    Eigen::MatrixXd pulled;  // stakes x readings: (half k(marks, stakes))'
    Eigen::VectorXd mean;    // of the stakes
  };
  struct Joint {
    Eigen::VectorXd mean;    // of the readings' places
    Eigen::MatrixXd within;  // their covariance
    Eigen::MatrixXd across;  // stakes x places
  };
  Joint joint(const std::vector<Place>& places) const;
  double rough(const Joint& joint, const std::vector<Look::Reading>& readings, const std::vector<Eigen::Index>& columns) const;

  const Fit& fit_;
  std::vector<Stake> stakes_;
  Ground ground_, marks_;  // of the stakes, of the readings taken
  std::vector<Part> parts_;
  Eigen::VectorXd mean_, variance_;
  double gap_ = 1;
  double loss_now_ = 0;
  std::vector<char> takes_;  // whether each stake would be taken out now
};

}  // namespace awlmark::survey
