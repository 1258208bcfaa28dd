#pragma once
// One pass run for what is read off its convex face, at the largest force and at the end of
// the push. No reference values here.

#include "solver/fields/face_rows.h"
#include "solver/outcome/face_figures.h"
#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"
#include "tests/verify/pass_figures.h"

#include <vector>

namespace throughbend
{
struct FaceRecord
{
  PassRecord              pass;
  std::vector<SurfaceRow> rows_at_peak, rows_at_end;
  FaceFigures             at_peak, at_end;
};

class FaceWatch : public PassObserver<2>
{
public:
  explicit FaceWatch(const CouponModel<2> &model) : fields_(model) {}

  void step_accepted(const PassView<2> &view, const PassSample &sample) override
  {
    if (sample.kind == StepKind::release)
      return;
    end = face_rows<2>(view, fields_, fields_.at_nodes(view, sample.travel, sample.kind));
    if (sample.ram_force <= largest_)
      return;
    largest_ = sample.ram_force;
    peak     = end;
  }

  std::vector<SurfaceRow> peak, end;

private:
  NodalFields<2> fields_;
  double         largest_ = 0;
};

inline FaceRecord push_and_look(const Case &c)
{
  PassSimulation<2> simulation(set_up(c), MPI_COMM_WORLD);
  FaceWatch         watch(simulation.model());
  simulation.attach(watch);
  FaceRecord record;
  record.pass         = record_of(c, simulation);
  record.rows_at_peak = watch.peak;
  record.rows_at_end  = watch.end;
  record.at_peak      = face_figures(c, watch.peak, peak(record.pass).travel).value();
  record.at_end = face_figures(c, watch.end, record.pass.samples.back().travel).value();
  return record;
}
} // namespace throughbend
