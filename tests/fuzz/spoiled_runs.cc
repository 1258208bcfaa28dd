// Spoils a run folder again and again, and has all that reads run folders read it. Whatever
// was spoiled, a reader takes the run or refuses it with file, place and cure; it never
// ends otherwise, waits, or shows a text from outside of the run.
//
//   spoiled_runs RUN [--count N] [--seed S] [--only K]

#include "tests/fuzz/run_readers.h"
#include "tests/fuzz/spoiler.h"
#include "tests/support/scratch_folder.h"

#include <sys/stat.h>
#include <unistd.h>

#include <cstdio>
#include <ctime>
#include <iostream>
#include <map>
#include <vector>

using namespace throughbend;
namespace fs = std::filesystem;

namespace
{
const std::string secret = "secret-of-somebody-else";

struct Order
{
  fs::path      run;
  unsigned      count = 200;
  std::uint64_t seed  = 1;
  int           only  = -1;
};

/// The run in memory. Of its many shapes the first ones are enough.
std::map<std::string, std::string> files_of(const fs::path &run)
{
  std::map<std::string, std::string> files;
  for (const fs::directory_entry &entry : fs::recursive_directory_iterator(run))
    if (const std::string name = fs::relative(entry.path(), run).string();
        entry.is_regular_file() && name.find("html") == std::string::npos &&
        name.find("pictures") == std::string::npos &&
        name.find("lock") == std::string::npos)
      files[name] = content(entry.path());
  return files;
}

void write_all(const std::map<std::string, std::string> &files, const fs::path &to)
{
  for (const auto &[name, text] : files)
  {
    fs::create_directories((to / name).parent_path());
    put_content(to / name, text);
  }
}

/// Something else in the place of a file, or of its folder.
std::string replace_file(const fs::path &run, const std::string &name,
                         const fs::path &outside, Spoiler &spoiler)
{
  fs::path file = run / name;
  // An earlier turn may have put a link or a file in the folder's place.
  std::error_code none;
  if (!fs::is_directory(fs::symlink_status(file.parent_path(), none)))
    file = file.parent_path();
  else if (file.parent_path() != run && spoiler.below(4) == 0)
    file = file.parent_path();
  const bool is_folder = fs::is_directory(fs::symlink_status(file));
  fs::remove_all(file);
  switch (spoiler.below(7))
  {
  case 0:
    return "taken away";
  case 1:
    if (mkfifo(file.c_str(), 0666) != 0)
      return "taken away";
    return "a FIFO";
  case 2:
    fs::create_symlink("/dev/zero", file);
    return "a link to /dev/zero";
  case 3:
    fs::create_directory(file);
    return "a folder";
  case 4:
    put_content(file, "");
    return "empty";
  case 5:
    fs::create_symlink(file.filename(), file);
    return "a link to itself";
  default:
    fs::create_symlink(is_folder ? outside : outside / "text.txt", file);
    return "a link to the outside";
  }
}

/// Spoils one run and has it read; its faults.
ReaderFaults one_run(const std::map<std::string, std::string> &files, const Order &order,
                     const WholeRun &whole, const std::uint64_t k, std::string &what)
{
  const ScratchFolder scratch;
  const fs::path      outside = scratch / "outside";
  fs::create_directory(outside);
  put_content(outside / "text.txt", "[case]\ntitle = " + secret + "\n");
  const fs::path run = scratch / "run";
  write_all(files, run);

  Spoiler                  spoiler(order.seed * 1'000'003 + k);
  std::vector<std::string> names;
  for (const auto &[name, text] : files)
    names.push_back(name);
  for (std::size_t n = 1 + spoiler.below(3); n > 0; --n)
  {
    // Half of all faults in the few files at the top, which are outnumbered by shapes.
    std::string name = names[spoiler.below(names.size())];
    if (spoiler.below(2) == 0)
      while (name.find('/') != std::string::npos)
        name = names[spoiler.below(names.size())];
    std::string     how = "spoiled";
    std::error_code none;
    if (spoiler.below(8) == 0)
      how = replace_file(run, name, outside, spoiler);
    else if (fs::is_regular_file(fs::symlink_status(run / name, none)))
      put_content(run / name, spoiler.spoiled(files.at(name)));
    what += (what.empty() ? "" : ", ") + name + " " + how;
  }
  return read_as_verbs_do(run, whole, secret,
                          k % 16 == 0 ? Pictures::drawn : Pictures::left_out);
}

bool read_order(const std::vector<std::string> &words, Order &order)
{
  if (words.empty() || words.size() % 2 == 0)
    return false;
  order.run = words[0];
  for (std::size_t i = 1; i < words.size(); i += 2)
    if (words[i] == "--count")
      order.count = static_cast<unsigned>(std::stoul(words[i + 1]));
    else if (words[i] == "--seed")
      order.seed = std::stoull(words[i + 1]);
    else if (words[i] == "--only")
      order.only = std::stoi(words[i + 1]);
    else
      return false;
  return fs::is_directory(order.run);
}
} // namespace

int main(int argc, char **argv)
{
  constexpr double longest = 30; // [s] of CPU, for one run; most take hundredths
  Order            order;
  if (!read_order({argv + 1, argv + argc}, order))
  {
    std::cerr << "spoiled_runs RUN [--count N] [--seed S] [--only K]\n";
    return 2;
  }
  const auto files    = files_of(order.run);
  const auto whole    = whole_run(order.run);
  int        bad      = 0;
  long       refusals = 0;
  for (std::uint64_t k = 0; k < order.count; ++k)
  {
    if (order.only >= 0 && k != static_cast<std::uint64_t>(order.only))
      continue;
    alarm(10 * static_cast<unsigned>(longest)); // where it waits for ever
    std::string        what;
    const auto         begin = std::clock();
    const ReaderFaults found = one_run(files, order, whole, k, what);
    refusals += found.refusals;
    const double took = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
    std::vector<std::string> faults = found.faults;
    if (took > longest)
      faults.push_back("takes " + std::to_string(took) + " s of CPU");
    for (const std::string &fault : faults)
      std::cout << "run " << k << " (" << what << "): " << fault << std::endl;
    bad += faults.empty() ? 0 : 1;
    // A sanitizer that aborts leaves the number of the run behind.
    if (k % 100 == 0)
      std::cout << "at run " << k << std::endl;
  }
  std::cout << order.count << " spoiled runs, " << refusals << " refusals, " << bad
            << " runs with faults\n";
  return bad == 0 ? 0 : 1;
}
