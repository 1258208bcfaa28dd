#include "solver/output/field_writer.h"

#include "solver/output/face_rows.h"
#include "solver/output/field_file.h"
#include "solver/output/tool_file.h"
#include "solver/output/whole_file.h"
#include "solver/pass/exit.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace throughbend
{
namespace
{
// The peak's shape is written once the force has fallen this far below it, rather than with
// every step of the climb.
constexpr double past_peak = 0.97;

std::string numbered(int number)
{
  char text[16];
  std::snprintf(text, sizeof text, "%04d", number);
  return text;
}
} // namespace

template <int dim>
FieldWriter<dim>::FieldWriter(const RunFolder *folder, const CouponModel<dim> &model)
    : folder_(folder), fields_(model)
{
  if (folder_ == nullptr)
    return;
  field_index_.emplace(folder_->fields() / "fields.pvd");
  tool_index_.emplace(folder_->tools() / "tools.pvd");
}

template <int dim>
void FieldWriter<dim>::step_accepted(const PassView<dim> &view, const PassSample &sample)
{
  const double spacing = view.c.output.field_spacing;
  if (sample.kind == StepKind::release)
  {
    close_loading(view);
    Shape free{fields_.at_nodes(view, sample.travel, sample.kind)};
    write(view, free, "released");
    return;
  }

  Shape shape{fields_.at_nodes(view, sample.travel, sample.kind), sample.ram_force};
  if (last_ && !is_loaded(view.c, sample))
  {
    if (spacing > 0 && sample.travel >= due_)
    {
      write(view, shape, numbered(regular_++));
      due_ = spacing * (std::floor(sample.travel / spacing) + 1);
    }
    return;
  }
  last_ = shape;
  if (spacing > 0 && sample.travel >= due_)
  {
    write(view, *last_, numbered(regular_++));
    due_ = spacing * (std::floor(sample.travel / spacing) + 1);
  }
  if (!peak_ || sample.ram_force > peak_->force)
  {
    peak_          = last_;
    peak_recorded_ = false;
  }
  else if (sample.ram_force < past_peak * peak_->force)
    write_peak(view);
}

template <int dim>
void FieldWriter<dim>::ended(const PassView<dim> &view, const Finding &, const Release &)
{
  close_loading(view);
}

template <int dim>
void FieldWriter<dim>::close_loading(const PassView<dim> &view)
{
  if (loading_closed_ || !last_)
    return;
  loading_closed_ = true;
  write(view, *last_, "loaded");
  if (peak_->state.travel == last_->state.travel)
    peak_->written = true;
  write_peak(view);
  keep_faces(view, *last_, Moment::end);
}

template <int dim>
void FieldWriter<dim>::write_peak(const PassView<dim> &view)
{
  if (!peak_ || peak_recorded_)
    return;
  peak_recorded_ = true;
  ++peaks_; // a later and higher one gets a file of its own
  write(view, *peak_, peaks_ == 1 ? "peak" : "peak_" + std::to_string(peaks_));
  keep_faces(view, *peak_, Moment::peak);
}

/// Viewers take two files of one time for two parts of one shape, so the released state,
/// whose travel is that of the last loaded one, stands one spacing later.
template <int dim>
double FieldWriter<dim>::time_of(const PassView<dim> &view, const NodalState &state) const
{
  return state.travel +
         (state.kind == StepKind::release ? view.c.output.field_spacing : 0.);
}

template <int dim>
void FieldWriter<dim>::write(const PassView<dim> &view, Shape &shape,
                             const std::string &name)
{
  if (shape.written || folder_ == nullptr || view.c.output.field_spacing <= 0)
    return;
  shape.written     = true;
  const double time = time_of(view, shape.state);

  ToolDrawing drawing;
  drawing.width      = dim == 3 ? view.c.coupon.width / 2 : 0.;
  drawing.plunger_up = 0.55 * view.c.coupon.length;
  write_whole_file(
      folder_->tools() / ("tools_" + name + ".vtp"),
      tool_file_text(view.equations.contact().tools(), shape.state.travel, drawing));
  tool_index_->put("tools_" + name + ".vtp", time);
  write_whole_file(folder_->fields() / ("coupon_" + name + ".vtu"),
                   field_file_text<dim>(fields_, view.model, shape.state));
  field_index_->put("coupon_" + name + ".vtu", time);
}

template <int dim>
void FieldWriter<dim>::keep_faces(const PassView<dim> &view, const Shape &shape,
                                  Moment moment)
{
  if (folder_ == nullptr)
    return;
  shots_.erase(std::remove_if(shots_.begin(), shots_.end(),
                              [&](const SurfaceShot &shot)
                              { return shot.moment == moment; }),
               shots_.end());
  shots_.push_back(
      {moment, shape.state.travel, face_rows<dim>(view, fields_, shape.state)});
  write_surface_record(folder_->surface_file(), shots_);
}

template class FieldWriter<2>;
template class FieldWriter<3>;
} // namespace throughbend
