#pragma once
// A study as it stands in its file: what was asked, every pass with its finding, figures
// and shapes, and what the passes say together. Written by solver/study, read by the report
// and the card. Holds no pass that is still under way.

#include <map>
#include <string>
#include <vector>

namespace throughbend
{
enum class StudyKind
{
  limit,  ///< where the finding changes along each key
  map,    ///< passes over a grid of one to three keys
  spread, ///< passes over samples of keys that scatter
  choice  ///< passes over fixtures, for a family of coupons
};

/// A key of the case that differs between the passes of a study.
struct StudyKey
{
  std::string key;  ///< as in a case: coupon.thickness
  std::string unit; ///< as it is shown, in the case's family: mm; empty where it has none
  double      scale = 1; ///< one such unit in N, mm, MPa, s
  double      own   = 0; ///< of the case itself [N, mm, MPa, s; -]
};

/// A line in the plane of bending [mm], in the coordinates of a pass: x along the flat
/// coupon from the middle of the fixture, y up from the shoulders' tops. Closed: the last
/// point joins the first.
struct StudyOutline
{
  std::string         name; ///< coupon, plunger, left_shoulder, ...
  std::vector<double> x, y; ///< [mm]
};

struct StudyMoment
{
  double                    travel = 0; ///< of the plunger [mm]
  double                    force  = 0; ///< of the ram [N]
  StudyOutline              coupon;
  std::vector<StudyOutline> tools; ///< in the first moment all, later only those that move
};

struct StudyPass
{
  std::vector<double>      values; ///< one a key, in their order [N, mm, MPa, s; -]
  std::vector<std::string> words;  ///< keys without a number that differ too; mostly none
  std::string              case_hash; ///< of the effective case, as in its run.json
  std::string              outcome;   ///< as in run.json: through, jammed, ...
  std::string              held;    ///< by what it is held where it stops: hooked, squeezed
  std::string              verdict; ///< the first line of a run, with its figures, metric
  std::string              evidence; ///< a few sentences on which the outcome rests, metric
  /// The same two with their figures apart, for readers of either family of units: JSON,
  /// members `verdict` and `evidence` as run.json has its accounts. Empty in studies of
  /// older versions.
  std::string              accounts;
  std::string              metal;    ///< within, beyond, not known
  std::string              accuracy; ///< sound, low, broken, as in run.json
  std::vector<std::string> events;   ///< what a sound pass lacks: leg ironed, ...
  /// Every number that run.json of the same pass has, by the same names, whole paths but
  /// for the group `key_figures`: peak_ram_force_N, capacity_margin, peak_face_strain_log,
  /// peak_face_elongation, largest_travel_mm; release.right_springback_deg,
  /// numerical_quality.worst_energy_error, finding.beyond_capacity... What is not known is
  /// not there.
  std::map<std::string, double> figures;
  std::vector<double>           travel;      ///< [mm], some hundred points of the pass
  std::vector<double>           force;       ///< [N], as many
  std::vector<StudyMoment>      moments;     ///< a dozen or so; the last is the last shape
  double                        seconds = 0; ///< that the pass took
};

struct StudyRecord
{
  StudyKind              kind = StudyKind::map;
  std::string            title;     ///< of the case
  std::string            case_text; ///< the effective case of the whole study
  std::vector<StudyKey>  keys;
  std::vector<StudyPass> passes;
  std::size_t            planned = 0; ///< passes in all, as far as known now
  bool                   whole   = false;
  /// What the passes say together, as JSON; its members by kind are in
  /// solver/study/answers.md. Empty while nothing is known.
  std::string answers;
};
} // namespace throughbend
