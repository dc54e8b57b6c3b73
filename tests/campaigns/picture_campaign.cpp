// picture_campaign [FILES] [SEED]: spoilt pictures of all formats, with good ones among them, taken
// in by the real take-in into a real notebook. The program must go on to the end, its memory stay
// within bounds, every file be accounted for, those that are not whole by name with a sentence, the
// good ones be in unharmed, and the notebook be sound. Ends with 1 at the first fault, naming seed
// and folder.
#include "campaigns/picture_mutations.h"
#include "desk/take_in.h"
#include "notebook/photos.h"
#include "notebook/whole_book.h"
#include "photos/shelf.h"
#include "temp_folder.h"

#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdio>
#include <iostream>
#include <map>
#include <stdexcept>

namespace picture_campaign {
namespace {

namespace fs = std::filesystem;
using namespace fettle;
using Clock = std::chrono::steady_clock;

constexpr int kOfOneFolder = 500;
constexpr int kGoodOfEach = 4;
constexpr long kMostMemory = 100; // MiB of the program itself, at any moment

#if defined(FETTLE_SANITIZED)
constexpr bool kMemoryCounts = false; // AddressSanitizer holds back what is freed
#else
constexpr bool kMemoryCounts = true;
#endif

void must_hold(bool holds, const std::string& what) {
    if (!holds) throw std::runtime_error(what);
}

template <class T>
T had(Result<T> result) {
    must_hold(result.ok(), result ? "" : result.failure().sentence);
    return std::move(*result);
}

// The most this process has held so far, MiB (proc(5), VmHWM).
long most_memory() {
    std::ifstream status("/proc/self/status");
    for (std::string word; status >> word;)
        if (word == "VmHWM:" && status >> word) return std::stol(word) >> 10;
    throw std::runtime_error("/proc/self/status has no VmHWM");
}

struct Counts {
    std::size_t whole = 0, damaged = 0, unreadable = 0, held = 0, good = 0;
    double slowest = 0;                   // seconds until the next file was dealt with
    std::map<std::string, int> died_over; // sentences of decoders that ended
};

class Campaign {
  public:
    Campaign(int files, std::uint64_t seed)
        : files_(files),
          random_(seed),
          originals_(make_originals(folder_ / "originals", kGoodOfEach)),
          book_(had(Notebook::create(folder_ / "book", "Drover"))) {}

    void run() {
        for (int done = 0; done < files_; done += kOfOneFolder)
            take_in_a_folder(std::min(kOfOneFolder, files_ - done));
        check_good_ones();
        for (const auto& photo : had(list_photos(book_))) {
            const auto hash = photos::hash_of_file(photo_file(book_, photo));
            must_hold(hash.ok() && *hash == photo.hash, "a copy is not what was taken in");
            must_hold(photo.width > 0 && photo.height > 0, photo.original_name + " has no size");
        }
        const auto wrong = notebook_tests::what_is_wrong_with(book_);
        must_hold(wrong.empty(), "the notebook is damaged: " + wrong);
        if (kMemoryCounts)
            must_hold(most_memory() <= kMostMemory,
                      "the program has held " + std::to_string(most_memory()) + " MiB");
    }

    const fs::path& folder() const { return folder_.path(); }
    Counts counts;

  private:
    // Good ones are among the first.
    std::map<std::string, std::string> write_files(const fs::path& camera, int count) {
        fs::remove_all(camera);
        fs::create_directories(camera);
        std::map<std::string, std::string> written;
        for (int at = 0; at < count; ++at) {
            const auto how = static_cast<Spoiling>(random_() % kSpoilings);
            auto [bytes, ending] = spoil(originals_, how, random_);
            if (at % 10 == 9 && counts.good < originals_.size()) {
                const auto& good = originals_[counts.good++];
                bytes = good.bytes, ending = good.ending;
            }
            const auto name = std::to_string(10'000 + at) + ending;
            write_file(camera / name, bytes);
            written.emplace(name, std::move(bytes));
        }
        return written;
    }

    void take_in_a_folder(int count) {
        const auto camera = folder_ / "camera";
        const auto written = write_files(camera, count);
        auto last = Clock::now();
        const auto report =
            had(desk::take_in(book_, {.paths = {camera}, .progress = [&](auto, auto, const auto&) {
                                          const std::chrono::duration<double> passed =
                                              Clock::now() - last;
                                          counts.slowest = std::max(counts.slowest, passed.count());
                                          last = Clock::now();
                                      }}));
        must_hold(!report.stopped, "it stopped before the end");
        must_hold(report.taken.size() + report.already_held.size() + report.unreadable.size() ==
                      std::size_t(count),
                  "not every file is accounted for");
        for (const auto& [file, sentence] : report.unreadable) {
            must_hold(written.contains(file.filename()), "a file is named that is not there");
            must_hold(sentence.find(file.filename().string()) != std::string::npos,
                      file.string() + " is not named in: " + sentence);
            note_death(file, sentence);
        }
        for (const auto& [file, why] : report.damaged)
            must_hold(written.contains(file.filename()) && !why.empty(), "damage without a reason");
        for (const auto& [name, bytes] : written)
            must_hold(file_text(camera / name) == bytes, "the original " + name + " was changed");
        counts.damaged += report.damaged.size();
        counts.whole += report.taken.size() - report.damaged.size();
        counts.held += report.already_held.size();
        counts.unreadable += report.unreadable.size();
    }

    // What the decoder could not survive is kept to be looked at.
    void note_death(const fs::path& file, const std::string& sentence) {
        constexpr std::string_view kBegun = "could not be decoded by the worker process: ";
        const auto begun = sentence.find(kBegun);
        if (begun == std::string::npos) return;
        const auto kept = fs::temp_directory_path() / "fettle-deaths";
        std::error_code error;
        fs::create_directories(kept, error);
        fs::copy_file(file,
                      kept / (std::to_string(counts.unreadable) + '-' + file.filename().string()),
                      fs::copy_options::overwrite_existing, error);
        ++counts.died_over[sentence.substr(begun + kBegun.size())];
    }

    void check_good_ones() {
        for (std::size_t at = 0; at < counts.good; ++at) {
            const auto& good = originals_[at];
            const auto id = had(photo_with_hash(book_, had(photos::hash_of_file(good.file))));
            must_hold(id.has_value(), good.file.filename().string() + " was not taken in");
            const auto photo = had(photo_by_id(book_, *id));
            must_hold(photo.damage.empty(), good.file.string() + " counts as damaged");
            // Upright: those that the camera was turned for are as high as others are wide.
            must_hold(std::max(photo.width, photo.height) == int(kWidth) &&
                          std::min(photo.width, photo.height) == int(kHeight),
                      good.file.string() + " has another size");
            must_hold(file_text(photo_file(book_, photo)) == good.bytes, "a good one was changed");
        }
    }

    int files_;
    std::mt19937_64 random_;
    TempFolder folder_;
    std::vector<Original> originals_;
    Notebook book_;
};

void print(const Counts& counts) {
    std::cout << counts.whole << " in as whole, " << counts.damaged << " in and named as damaged, "
              << counts.unreadable << " left out and named, " << counts.held << " held already; "
              << counts.good << " good ones among them, all in; the slowest took " << counts.slowest
              << " s; the program held at most " << most_memory() << " MiB\n";
    for (const auto& [sentence, times] : counts.died_over)
        std::cout << "  a decoder ended " << times << " times: " << sentence << '\n';
}

int campaign(int files, std::uint64_t seed) {
    Campaign run(files, seed);
    try {
        run.run();
    } catch (const std::exception& fault) {
        const fs::path kept = "/tmp/fettle-pictures-" + std::to_string(getpid());
        fs::copy(run.folder(), kept, fs::copy_options::recursive);
        std::cout << "seed " << seed << ": " << fault.what() << "; the files are kept in "
                  << kept.string() << std::endl;
        return 1;
    }
    print(run.counts);
    return 0;
}

} // namespace
} // namespace picture_campaign

// Whatever becomes of the program that takes in is seen from outside.
int main(int count, char** arguments) {
    const int files = count > 1 ? std::atoi(arguments[1]) : 10'000;
    const std::uint64_t seed =
        count > 2 ? std::strtoull(arguments[2], nullptr, 10) : std::random_device()();
    std::cout << "picture campaign: " << files << " files, seed " << seed << std::endl;
    const auto child = fork();
    if (child == 0) {
        std::signal(SIGPIPE, SIG_IGN);
        const int code = picture_campaign::campaign(files, seed);
        std::cout.flush();
        return code;
    }
    int status = 0;
    if (child < 0 || waitpid(child, &status, 0) != child) return 2;
    if (WIFEXITED(status)) return WEXITSTATUS(status);
    std::cout << "the program was ended by signal " << WTERMSIG(status) << '\n';
    return 1;
}
