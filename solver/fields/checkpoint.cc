#include "solver/fields/checkpoint.h"

#include "inputs/text/input_error.h"
#include "inputs/text/whole_file.h"
#include "solver/fields/shape_fields.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <new>
#include <stdexcept>
#include <string_view>

namespace throughbend
{
namespace fs = std::filesystem;

namespace
{
constexpr std::string_view file_name{"throughbend checkpoint\n\0", 24};
constexpr std::int32_t     byte_order = 0x01020304;
/// To be raised when the meaning of a field changes.
constexpr std::int32_t  format_version = 2;
constexpr std::uint64_t head_size      = 24 + 4 + 4 + 8 + 8;
/// Far more than any pass; what is larger is none of ours and is not even summed up
/// [bytes].
constexpr std::uint64_t most_bytes = std::uint64_t{4} << 30;

/// The version, and how many bytes the lists of fields make: a field that is added makes
/// another format by itself.
std::int32_t format_number()
{
  SurfaceRow row;
  row.across.emplace();
  PassSample sample;
  sample.width.emplace();
  sample.flaws.emplace_back();
  StateWriter writer;
  writer(row, sample, PlasticState(), ContactState(), PassState());
  return format_version * 1000000 + static_cast<std::int32_t>(writer.bytes().size());
}

/// FNV-1a, 64 bit; see inputs/keys/case_text.
class Checksum
{
public:
  void add(const char *bytes, std::size_t n)
  {
    for (std::size_t i = 0; i < n; ++i)
    {
      value_ ^= static_cast<unsigned char>(bytes[i]);
      value_ *= 0x100000001b3u;
    }
  }
  std::uint64_t value() const { return value_; }

private:
  std::uint64_t value_ = 0xcbf29ce484222325u;
};

template <class Archive>
void transfer(Archive &a, RunPast &value)
{
  auto &[version, git_revision, started, resumed, case_source, case_values, ranks] = value;
  a(version, git_revision, started, resumed, case_source, case_values, ranks);
}

template <class Archive>
void transfer(Archive &a, Checkpoint &value)
{
  auto &[number, past, state] = value;
  a(number);
  transfer(a, past);
  a(state);
}

std::string bytes_of(const Checkpoint &checkpoint)
{
  StateWriter content;
  transfer(content, const_cast<Checkpoint &>(checkpoint)); // only read
  Checksum sum;
  sum.add(content.bytes().data(), content.bytes().size());
  StateWriter head;
  head(byte_order, format_number(), std::uint64_t{content.bytes().size()}, sum.value());
  return std::string(file_name) + head.bytes() + content.bytes();
}

/// Reads name, order, version and length, and compares the checksum; then the stream stands
/// at the content, whose length is returned.
std::uint64_t open_content(std::ifstream &in, const fs::path &file)
{
  std::error_code     fault;
  const std::uint64_t size = fs::file_size(file, fault);
  if (fault || !fs::is_regular_file(file, fault) || !in)
    throw InputError("it cannot be read");
  if (size < head_size)
    throw InputError("it is too short to be one (" + std::to_string(size) + " bytes)");
  if (size > most_bytes)
    throw InputError("it is too long to be one (" + std::to_string(size) + " bytes)");
  std::array<char, 24> name{};
  in.read(name.data(), name.size());
  if (std::string_view(name.data(), name.size()) != file_name)
    throw InputError("it is not a checkpoint of throughbend");
  StateReader   head(in, head_size - name.size());
  std::int32_t  order = 0, version = 0;
  std::uint64_t length = 0, given = 0;
  head(order, version, length, given);
  if (order != byte_order)
    throw InputError("it was written on a machine of another byte order");
  if (version != format_number())
    throw InputError("it is of format " + std::to_string(version) +
                     ", and this throughbend reads format " +
                     std::to_string(format_number()));
  if (length != size - head_size)
    throw InputError("it is truncated or too long: " + std::to_string(size - head_size) +
                     " bytes of content instead of " + std::to_string(length));
  Checksum                  sum;
  std::array<char, 1 << 16> buffer{};
  for (std::uint64_t left = length; left > 0;)
  {
    const auto n = static_cast<std::size_t>(std::min<std::uint64_t>(left, buffer.size()));
    in.read(buffer.data(), static_cast<std::streamsize>(n));
    if (!in)
      throw InputError("it cannot be read to its end");
    sum.add(buffer.data(), n);
    left -= n;
  }
  if (sum.value() != given)
    throw InputError("it is corrupt: its checksum does not match its content");
  in.seekg(static_cast<std::streamoff>(head_size));
  return length;
}
} // namespace

std::vector<fs::path> checkpoint_slots(const fs::path &folder)
{
  return {folder / "a.state", folder / "b.state"};
}

Checkpoint read_checkpoint(const fs::path &file)
{
  try
  {
    std::error_code fault;
    if (!fs::is_regular_file(fs::symlink_status(file, fault))) // a pipe would be waited for
      throw InputError("it is no regular file");
    std::ifstream       in(file, std::ios::binary);
    const std::uint64_t length = open_content(in, file);
    StateReader         reader(in, length);
    Checkpoint          checkpoint;
    transfer(reader, checkpoint);
    if (reader.left() != 0)
      throw InputError("it holds " + std::to_string(reader.left()) + " bytes too many");
    return checkpoint;
  }
  catch (const InputError &error)
  {
    throw InputError("the checkpoint " + file.string() +
                     " cannot be used: " + error.what());
  }
  catch (const std::bad_alloc &)
  {
    throw InputError("the checkpoint " + file.string() +
                     " cannot be used: there is not enough memory for it");
  }
}

void keep_checkpoint(const fs::path &folder, const Checkpoint &checkpoint)
{
  const std::vector<fs::path> slots = checkpoint_slots(folder);
  write_durable_file(slots[checkpoint.number % slots.size()], bytes_of(checkpoint));
}

Checkpoint newest_checkpoint(const fs::path &folder, std::vector<std::string> &remarks)
{
  std::optional<Checkpoint> newest;
  std::string               faults;
  for (const fs::path &slot : checkpoint_slots(folder))
  {
    std::error_code none;
    if (fs::symlink_status(slot, none).type() == fs::file_type::not_found)
      continue;
    try
    {
      Checkpoint checkpoint = read_checkpoint(slot);
      if (!newest || checkpoint.number > newest->number)
        newest = std::move(checkpoint);
    }
    catch (const InputError &error)
    {
      faults += (faults.empty() ? "" : "; ") + std::string(error.what());
      remarks.emplace_back(error.what());
    }
  }
  if (newest)
    return std::move(*newest);
  throw InputError(
      (faults.empty() ? "there is no checkpoint in " + folder.string() : faults) +
      ". The pass cannot be resumed: push the case again, into another folder or with "
      "--overwrite.");
}
} // namespace throughbend
