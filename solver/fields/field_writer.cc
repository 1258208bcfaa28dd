#include "solver/fields/field_writer.h"

#include "inputs/text/whole_file.h"
#include "solver/fields/face_rows.h"
#include "solver/fields/field_file.h"
#include "solver/fields/shape_fields.h"
#include "solver/outcome/exit.h"
#include "solver/record/shape_parts.h"
#include "solver/record/tool_file.h"

#include <deal.II/base/mpi.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <sstream>

namespace throughbend
{
namespace
{
// The peak's shape is written once the force has fallen this far below it, rather than with
// every step of the climb.
constexpr double past_peak = 0.97;

/// As those that we give: no place in another folder, nothing that XML would trip over.
bool is_plain_name(const std::string &name)
{
  return name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_.") ==
         std::string::npos;
}

/// One alone may never have started MPI.
template <int dim>
int n_ranks_of(const CouponModel<dim> &model)
{
  return model.alone() ? 1
                       : static_cast<int>(
                             dealii::Utilities::MPI::n_mpi_processes(model.communicator()));
}

/// The first rank's text, on every rank of the model.
template <int dim>
std::string told_by_first(const std::string &text, const CouponModel<dim> &model)
{
  return model.alone() ? text
                       : dealii::Utilities::MPI::broadcast(model.communicator(), text, 0);
}

/// Of all ranks.
std::vector<std::string> part_files(const std::string &shape, const int n_ranks)
{
  std::vector<std::string> files;
  for (int rank = 0; rank < n_ranks; ++rank)
    files.push_back(part_file(shape, rank));
  return files;
}

std::string numbered(int number)
{
  char text[16];
  std::snprintf(text, sizeof text, "%04d", number);
  return text;
}
} // namespace

template <int dim>
FieldWriter<dim>::FieldWriter(const RunFolder *folder, const CouponModel<dim> &model,
                              const double spacing)
    : folder_(folder), n_ranks_(n_ranks_of(model)),
      fields_folder_(
          told_by_first(folder != nullptr ? folder->fields().string() : "", model)),
      spacing_(spacing), model_(model), fields_(model)
{
  if (folder_ == nullptr)
    return;
  field_index_.emplace(folder_->fields() / "fields.pvd");
  tool_index_.emplace(folder_->tools() / "tools.pvd");
}

template <int dim>
void FieldWriter<dim>::step_accepted(const PassView<dim> &view, const PassSample &sample)
{
  if (sample.kind == StepKind::release)
  {
    close_loading(view);
    Shape free{fields_.at_nodes(view, sample.travel, sample.kind)};
    write(view, free, "released");
    return;
  }

  Shape shape{fields_.at_nodes(view, sample.travel, sample.kind), sample.ram_force};
  if (kept_.last && !is_loaded(view.setup, sample))
  {
    if (spacing_ > 0 && sample.travel >= kept_.due)
    {
      write(view, shape, numbered(kept_.regular++));
      kept_.due = spacing_ * (std::floor(sample.travel / spacing_) + 1);
    }
    return;
  }
  kept_.last = shape;
  if (spacing_ > 0 && sample.travel >= kept_.due)
  {
    write(view, *kept_.last, numbered(kept_.regular++));
    kept_.due = spacing_ * (std::floor(sample.travel / spacing_) + 1);
  }
  if (!kept_.peak || sample.ram_force > kept_.peak->force)
  {
    kept_.peak          = kept_.last;
    kept_.peak_recorded = false;
  }
  else if (sample.ram_force < past_peak * kept_.peak->force)
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
  if (kept_.loading_closed || !kept_.last)
    return;
  kept_.loading_closed = true;
  write(view, *kept_.last, "loaded");
  if (kept_.peak->state.travel == kept_.last->state.travel)
    kept_.peak->written = true;
  write_peak(view);
  keep_faces(view, *kept_.last, Moment::end);
}

template <int dim>
void FieldWriter<dim>::write_peak(const PassView<dim> &view)
{
  if (!kept_.peak || kept_.peak_recorded)
    return;
  kept_.peak_recorded = true;
  ++kept_.peaks; // a later and higher one gets a file of its own
  write(view, *kept_.peak,
        kept_.peaks == 1 ? "peak" : "peak" + std::to_string(kept_.peaks));
  keep_faces(view, *kept_.peak, Moment::peak);
}

/// Viewers take two files of one time for two parts of one shape, so the released state,
/// whose travel is that of the last loaded one, stands one spacing later.
template <int dim>
double FieldWriter<dim>::time_of(const NodalState &state) const
{
  return state.travel + (state.kind == StepKind::release ? spacing_ : 0.);
}

template <int dim>
void FieldWriter<dim>::write(const PassView<dim> &view, Shape &shape,
                             const std::string &name)
{
  if (shape.written || fields_folder_.empty() || spacing_ <= 0)
    return;
  shape.written     = true;
  const double time = time_of(shape.state);
  if (n_ranks_ > 1)
    write_parts(shape.state, "coupon_" + name);
  if (folder_ == nullptr)
    return;

  const double width = dim == 3 ? view.setup.coupon.width / 2 : 0.;
  write_whole_file(
      folder_->tools() / ("tools_" + name + ".vtp"),
      tool_file_text(view.equations.contact().tools(), shape.state.travel, width),
      FolderLink::refuse);
  tool_index_->put("tools_" + name + ".vtp", time);
  const std::string file = "coupon_" + name + (n_ranks_ > 1 ? ".pvtu" : ".vtu");
  write_whole_file(
      fields_folder_ / file,
      n_ranks_ > 1 ? field_parts_text<dim>(model_, part_files("coupon_" + name, n_ranks_))
                   : field_file_text<dim>(fields_, model_, shape.state),
      FolderLink::refuse);
  field_index_->put(file, time);
}

/// Returns once all ranks have written theirs: the first then names only what is there.
template <int dim>
void FieldWriter<dim>::write_parts(const NodalState &state, const std::string &name) const
{
  const int rank =
      static_cast<int>(dealii::Utilities::MPI::this_mpi_process(model_.communicator()));
  write_whole_file(fields_folder_ / part_file(name, rank),
                   field_file_text<dim>(fields_, model_, state), FolderLink::refuse);
  MPI_Barrier(model_.communicator());
}

template <int dim>
void FieldWriter<dim>::keep_faces(const PassView<dim> &view, const Shape &shape,
                                  Moment moment)
{
  kept_.shots.erase(std::remove_if(kept_.shots.begin(), kept_.shots.end(),
                                   [&](const SurfaceShot &shot)
                                   { return shot.moment == moment; }),
                    kept_.shots.end());
  kept_.shots.push_back(
      {moment, shape.state.travel, face_rows<dim>(view, fields_, shape.state)});
  if (folder_ != nullptr)
    write_surface_record(folder_->surface_file(), kept_.shots);
}

template <int dim>
std::string FieldWriter<dim>::memory() const
{
  Kept kept = kept_;
  for (auto *shape : {&kept.last, &kept.peak})
    if (*shape)
      (*shape)->state.u = model_.in_common_order((*shape)->state.u);
  if (folder_ != nullptr)
  {
    kept.fields = field_index_->times();
    kept.tools  = tool_index_->times();
  }
  StateWriter writer;
  writer(kept);
  return writer.bytes();
}

template <int dim>
typename FieldWriter<dim>::Kept FieldWriter<dim>::kept_in(const std::string &memory)
{
  std::istringstream in(memory);
  StateReader        reader(in, memory.size());
  Kept               kept;
  reader(kept);
  if (reader.left() != 0)
    throw InputError("what it says of the field files is too long");
  return kept;
}

template <int dim>
std::string FieldWriter<dim>::fault_of(const std::string &memory) const
try
{
  const Kept kept = kept_in(memory);
  for (const auto *shape : {&kept.last, &kept.peak})
    if (*shape &&
        (!fields_.fits((*shape)->state) || (*shape)->state.u.size() != model_.n_dofs()))
      return "it is of another model, of shapes of another size";
  for (const auto *files : {&kept.fields, &kept.tools})
    for (const auto &[name, time] : *files)
      if (!is_plain_name(name))
        return "it names a field file that is none of ours";
  // A peak is the peak of something.
  return kept.last.has_value() != kept.peak.has_value()
             ? "what it says of the field files contradicts itself"
             : "";
}
catch (const InputError &error)
{
  return error.what();
}

template <int dim>
void FieldWriter<dim>::recall(const std::string &memory)
{
  kept_ = kept_in(memory);
  for (auto *shape : {&kept_.last, &kept_.peak})
    if (*shape)
      (*shape)->state.u = model_.in_own_order((*shape)->state.u);
  if (folder_ == nullptr)
    return;
  folder_->keep_shapes(kept_.fields, kept_.tools);
  field_index_->hold(kept_.fields);
  tool_index_->hold(kept_.tools);
  if (kept_.shots.empty())
    std::filesystem::remove(folder_->surface_file());
  else
    write_surface_record(folder_->surface_file(), kept_.shots);
}

template class FieldWriter<2>;
template class FieldWriter<3>;
} // namespace throughbend
