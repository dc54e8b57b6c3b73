// kill_campaign [KILLS] [SEED]: a user's random acts through the store and the command line, killed
// at random moments, also inside a take-in, undo, the bringing up of old notebooks and what is
// given out (kill_given.h). After each kill the notebook is opened again and compared with one that
// did the same and was not killed: what was acknowledged is there, and the act under way as a whole
// or not at all. Ends with 1 at the first difference, naming seed and folder.
#include "campaigns/kill_acts.h"
#include "campaigns/kill_given.h"
#include "campaigns/kill_victim.h"
#include "notebook/photos.h"
#include "photos/shelf.h"
#include "temp_folder.h"

#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdio>
#include <iostream>
#include <stdexcept>

namespace kill_campaign {
namespace {

namespace fs = std::filesystem;
using namespace fettle;

constexpr int kActsOfOneLife = 200; // more than are done before the kill
constexpr int kKillsOfOneBook = 100;
constexpr int kPictures = 10;
constexpr int kOldSchemas = 4; // of tests/notebook/data

struct Counts {
    int kills = 0, before_the_act = 0, act_whole = 0, too_late = 0, take_ins = 0, openings = 0,
        given = 0;
    long acknowledged = 0;
};

std::vector<Photo> photos_in(const Notebook& book) {
    auto photos = list_photos(book);
    must_hold(photos.ok(), "the photos cannot be listed");
    return std::move(*photos);
}

class Campaign {
  public:
    explicit Campaign(std::uint64_t seed) : random_(seed), given_(folder_.path(), random_) {
        must_hold(
            std::system(
                ("convert -size 40x30 plasma: " + (folder_ / kTinyPicture).string()).c_str()) == 0,
            "convert is missing");
        for (int picture = 0; picture < kPictures; ++picture) {
            const auto file = camera() / (std::to_string(100 + picture) + ".jpg");
            fs::create_directories(camera());
            const auto command = "convert -size 640x480 -seed " + std::to_string(picture) +
                                 " plasma: " + file.string();
            must_hold(std::system(command.c_str()) == 0, "convert is missing");
        }
    }

    void run(int kills) {
        while (counts.kills < kills) {
            if (counts.kills % kKillsOfOneBook == 0) begin();
            const auto dice = random_() % 20;
            if (dice < 3)
                kill_a_verb();
            else if (dice < 5)
                kill_a_take_in();
            else if (dice < 7)
                kill_an_opening();
            else if (dice < 14)
                kill_what_is_given_out();
            else
                kill_a_sitting();
            ++counts.kills;
        }
    }

    const fs::path& folder() const { return folder_.path(); }
    std::string given() const { return given_.counted(); }
    Counts counts;

  private:
    fs::path real() const { return folder_ / "book"; }
    fs::path model() const { return folder_ / "model"; }
    fs::path camera() const { return folder_ / "camera"; }

    void begin() {
        fs::remove_all(real());
        must_hold(Notebook::create(real(), "Drover").ok(), "no notebook can be made");
        model_as_real();
        given_.begin(real());
    }

    void model_as_real() {
        fs::remove_all(model());
        fs::copy(real(), model(), fs::copy_options::recursive);
    }

    std::chrono::microseconds some_time(int most_ms) {
        return std::chrono::microseconds(random_() % (most_ms * 1000));
    }

    // One act further, if the killed notebook is not as the model: then it must be as that.
    template <class Act>
    void compare(bool acknowledged_all, Act&& next_act) {
        const auto found = sound_content(real());
        must_be_clean(real());
        if (found == sound_content(model())) {
            ++counts.before_the_act;
            return;
        }
        must_hold(!acknowledged_all, "what was acknowledged is lost");
        next_act();
        must_hold(found == sound_content(model()), "an act is lost or half done");
        ++counts.act_whole;
    }

    // Acts through the store, one after the other; each that is done is told through a pipe.
    void kill_a_sitting() {
        const auto seed = random_();
        int ends[2];
        must_hold(pipe(ends) == 0, "no pipe can be made");
        Victim victim([&] {
            Notebook book = opened(real());
            std::mt19937_64 acts(seed);
            for (int act = 0; act < kActsOfOneLife; ++act) {
                act_at_random(book, acts);
                if (write(ends[1], "x", 1) != 1) return 7;
            }
            return 0;
        });
        close(ends[1]);
        victim.kill_after(some_time(60));
        char told[kActsOfOneLife];
        long acknowledged = 0;
        for (ssize_t got; (got = read(ends[0], told, sizeof told)) > 0;)
            acknowledged += got;
        close(ends[0]);
        counts.acknowledged += acknowledged;

        std::mt19937_64 acts(seed);
        {
            Notebook book = opened(model());
            for (long act = 0; act < acknowledged; ++act)
                act_at_random(book, acts);
        }
        compare(acknowledged == kActsOfOneLife, [&] {
            Notebook book = opened(model());
            act_at_random(book, acts);
        });
    }

    void kill_a_verb() {
        const auto verb = verb_at_random(random_);
        Victim victim([&] { return become_verb(real(), verb); });
        victim.kill_after(some_time(40));
        const auto on_model = [&] { (void)verb_goes(model(), verb); };
        if (victim.ended_by_itself()) {
            ++counts.too_late;
            ++counts.acknowledged;
            on_model();
        }
        compare(victim.ended_by_itself(), on_model);
    }

    // Each photo is there with its file or not at all, and taking in again completes it.
    void kill_a_take_in() {
        const std::vector<std::string> verb = {"take-in", camera().string()};
        Victim victim([&] { return become_verb(real(), verb); });
        victim.kill_after(some_time(400));
        check_photos();
        must_hold(verb_goes(real(), verb), "the second take-in failed");
        check_photos();
        const Notebook book = opened(real());
        int taken = 0;
        for (const auto& photo : photos_in(book))
            taken += photo.width == 640;
        must_hold(taken == kPictures, std::to_string(taken) + " photos after taking in again");
        for (const auto& entry : fs::recursive_directory_iterator(real() / "photos"))
            must_hold(!entry.path().filename().string().starts_with('.'), "a half copy is left");
        ++counts.take_ins;
        model_as_real();
    }

    void check_photos() {
        (void)sound_content(real());
        must_be_clean(real());
        const Notebook book = opened(real());
        for (const auto& photo : photos_in(book)) {
            auto hash = photos::hash_of_file(photo_file(book, photo));
            must_hold(hash.ok() && *hash == photo.hash, "a photo's file is not whole");
        }
    }

    void kill_what_is_given_out() {
        const auto before = sound_content(real());
        given_.kill_one(real());
        must_hold(sound_content(real()) == before, "giving out has changed the notebook");
        ++counts.given;
    }

    // An old notebook, brought up when it is opened.
    void kill_an_opening() {
        const auto old = folder_ / "old";
        const auto file = fs::path(FETTLEBOOK_SOURCE_DIR "/tests/notebook/data") /
                          ("schema" + std::to_string(1 + random_() % kOldSchemas) + ".db");
        const auto lay_out = [&] {
            fs::remove_all(old);
            fs::create_directories(old / "photos");
            fs::copy_file(file, old / "notebook.db");
        };
        lay_out();
        const auto untouched = sound_content(old);
        lay_out();
        Victim victim([&] {
            (void)opened(old);
            return 0;
        });
        victim.kill_after(some_time(12));
        must_hold(sound_content(old) == untouched, "an old notebook is not wholly brought up");
        ++counts.openings;
    }

    TempFolder folder_;
    std::mt19937_64 random_;
    GivenOut given_;
};

int campaign(int kills, std::uint64_t seed) {
    std::cout << "kill campaign: " << kills << " kills, seed " << seed << std::endl;
    Campaign run(seed);
    try {
        run.run(kills);
    } catch (const std::exception& difference) {
        const fs::path kept = "/tmp/fettle-killed-" + std::to_string(getpid());
        fs::copy(run.folder(), kept, fs::copy_options::recursive);
        std::cout << "after kill " << run.counts.kills + 1 << ", seed " << seed << ": "
                  << difference.what() << "; the notebooks are kept in " << kept.string() << '\n';
        return 1;
    }
    const auto& counts = run.counts;
    std::cout << counts.kills << " kills: " << counts.take_ins << " in a take-in, "
              << counts.openings << " in bringing an old notebook up, " << counts.given
              << " in what is given out or met (" << run.given() << "), " << counts.too_late
              << " after the verb's end; " << counts.acknowledged
              << " acts acknowledged, none lost; the act under way was there as a whole "
              << counts.act_whole << " times, not at all " << counts.before_the_act << " times\n";
    return 0;
}

} // namespace
} // namespace kill_campaign

int main(int count, char** arguments) {
    std::signal(SIGPIPE, SIG_IGN);
    const int kills = count > 1 ? std::atoi(arguments[1]) : 1000;
    const std::uint64_t seed =
        count > 2 ? std::strtoull(arguments[2], nullptr, 10) : std::random_device()();
    return kill_campaign::campaign(kills, seed);
}
