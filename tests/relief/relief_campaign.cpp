// How much a torch set helps, over random stampings:
//   relief_campaign stamps [COUNT] [SEED]  worn stampings read by an OCR program (Debian's
//   tesseract),
//                                          from single photos and from the relief of the same
//                                          photos
//   relief_campaign pairs [COUNT] [SEED]   reliefs of one punch and of two laid on each other: how
//                                          their figures spread
// Prints plain figures; exits 1 when the relief is not read more often than single photos, or the
// figures of pairs do not part at all.
#include "base/near_names.h"
#include "relief/align.h"
#include "relief/compare.h"
#include "relief/height.h"
#include "relief/look.h"
#include "relief/struck_letters.h"
#include "temp_folder.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>

using namespace relief_tests;

namespace {

constexpr int kPhotos = 8, kMargin = 12;
constexpr double kLetters = 60; // pixels high
const Rectangle kPart{kMargin, kMargin, 480, 170};

// ---- one set, from photos with a ball to a relief, as the program does it ----

struct Set {
    std::vector<Shot> shots;
    Relief relief;
};

Set photographed_set(Scene scene, std::mt19937& random) {
    std::uniform_real_distribution<double> shift(-3, 3), above(15, 50), strength(0.8, 1.2);
    std::uniform_real_distribution<double> aside(-12, 12);
    scene.ball = Ball{570, 100, 40};
    scene.glint = 0.25;
    std::vector<Light> lights;
    std::vector<Pose> cameras;
    for (int k = 0; k < kPhotos; ++k) {
        lights.push_back(
            {direction_of(360.0 * k / kPhotos + aside(random), above(random)), strength(random)});
        cameras.push_back(k == 0 ? Pose{} : Pose{shift(random), shift(random)});
    }
    Set set{shots_of(scene, lights, cameras, unsigned(random())), {}};
    const auto fail = [](const Failure& failure) {
        std::fprintf(stderr, "%s\n", failure.sentence.c_str());
        std::exit(1);
    };
    const auto poses = aligned(set.shots, Freedom::shift);
    if (!poses) fail(poses.failure());
    std::vector<Direction> towards;
    for (std::size_t k = 0; k < set.shots.size(); ++k) {
        Ball ball = *scene.ball;
        ball.x += (*poses)[k].x, ball.y += (*poses)[k].y;
        const auto light = light_from_ball({light_of(set.shots[k]), ball}, k);
        if (!light) fail(light.failure());
        towards.push_back(*light);
    }
    auto relief = relief_of(set.shots, *poses, kPart, towards);
    if (!relief) fail(relief.failure());
    set.relief = std::move(*relief);
    return set;
}

Struck worn(const std::string& text, unsigned seed, std::mt19937& random) {
    std::uniform_real_distribution<double> depth(1, 2), wear(0.2, 0.6), turn(-2, 2);
    return {.text = text,
            .width = 640,
            .height = 194,
            .letter_height = kLetters,
            .depth = depth(random),
            .flank = 2,
            .wear = wear(random),
            .grain = 0.12,
            .stain = 0.8,
            .turn_degrees = turn(random),
            .off_middle = {-68, 0},
            .seed = seed};
}

// ---- reading ----

std::string without_blanks(std::string text) {
    std::erase_if(text, [](char sign) { return sign <= ' '; });
    return text;
}

std::string read_by_ocr(const GreyPicture& picture, const std::filesystem::path& file) {
    write_file(file, "P5\n" + std::to_string(picture.width) + " " + std::to_string(picture.height) +
                         "\n255\n" + std::string(picture.samples.begin(), picture.samples.end()));
    const std::string command =
        "OMP_THREAD_LIMIT=1 tesseract '" + file.string() +
        "' - --psm 7 -c tessedit_char_whitelist=ACEFHKLMNPRTVX3479 2>/dev/null";
    FILE* pipe = popen(command.c_str(), "r");
    if (!pipe) std::exit(1);
    std::string text;
    char piece[256];
    for (std::size_t got; (got = fread(piece, 1, sizeof piece, pipe)) > 0;)
        text.append(piece, got);
    if (pclose(pipe) != 0) {
        std::fprintf(stderr, "tesseract cannot be run: install tesseract-ocr\n");
        std::exit(1);
    }
    return without_blanks(text);
}

// What is about as wide as strokes, by two widths, in black and white at two fifths of the range,
// and its negative each: letters may be darker or brighter than the ground. The best of the four
// counts, for photos and reliefs alike.
struct Reading {
    bool whole = false;
    double letters = 0; // share that is right
};
Reading best_reading(const Grid& shades, const std::string& text, const TempFolder& folder) {
    Reading best;
    const Grid fine = smoothed(shades, kLetters / 30);
    for (const double wide : {kLetters / 4.3, kLetters / 2.7}) {
        const Grid around = smoothed(shades, wide);
        Relief strokes;
        strokes.height = fine;
        for (std::size_t at = 0; at < fine.samples.size(); ++at)
            strokes.height.samples[at] -= around.samples[at];
        for (const bool negative : {false, true}) {
            const View view{.kind = Kind::depth, .turned_over = negative};
            GreyPicture picture = picture_of(strokes, view).picture;
            for (auto& sample : picture.samples)
                sample = sample < 102 ? 0 : 255;
            const std::string read = read_by_ocr(picture, folder / "picture.pgm");
            best.whole = best.whole || read == text;
            const double wrong = double(letters_apart(read, text)) / double(text.size());
            best.letters = std::max(best.letters, 1 - std::min(1.0, wrong));
        }
    }
    return best;
}

int stamps(int count, unsigned seed) {
    std::mt19937 random(seed);
    TempFolder folder;
    int relief_read = 0, any_read = 0, photos_read = 0, photos = 0;
    double relief_letters = 0, photo_letters = 0;
    for (int stamp = 0; stamp < count; ++stamp) {
        const std::string text = random_stamp(random, 5);
        const Set set = photographed_set(struck(worn(text, unsigned(random()), random)), random);
        const Reading relief = best_reading(set.relief.height, text, folder);
        relief_read += relief.whole, relief_letters += relief.letters;
        int read = 0;
        for (const Shot& shot : set.shots) {
            const Reading one = best_reading(light_of(cut_out(shot, kPart)), text, folder);
            read += one.whole, photo_letters += one.letters;
        }
        photos_read += read, photos += kPhotos, any_read += read > 0;
        std::printf("%s  relief %s  %d of %d photos\n", text.c_str(),
                    relief.whole ? "read" : "not read", read, kPhotos);
    }
    std::printf("read whole, of %d stampings: relief %.0f %%, single photos %.0f %%, any of %d "
                "photos %.0f %%\n",
                count, 100.0 * relief_read / count, 100.0 * photos_read / photos, kPhotos,
                100.0 * any_read / count);
    std::printf("letters: relief %.0f %%, single photos %.0f %%\n", 100 * relief_letters / count,
                100 * photo_letters / photos);
    return double(relief_read) / count > double(photos_read) / photos ? 0 : 1;
}

// ---- comparing ----

void print_spread(const char* what, std::vector<float> figures) {
    std::printf("%-34s", what);
    for (const double share : {0.0, 0.05, 0.25, 0.5, 0.75, 0.95, 1.0})
        std::printf(" %6.2f", double(quantile(figures, share)));
    std::printf("\n");
}

int pairs(int count, unsigned seed) {
    std::mt19937 random(seed);
    std::vector<float> same, one_letter, other;
    const auto relief = [&](const std::string& text, double turn) {
        Struck wanted = worn(text, unsigned(random()), random);
        wanted.turn_degrees = turn;
        return photographed_set(struck(wanted), random).relief.height;
    };
    std::uniform_real_distribution<double> turn(-6, 6);
    for (int pair = 0; pair < count; ++pair) {
        const std::string text = random_stamp(random, 5);
        std::string changed = text, third = random_stamp(random, 5);
        while (changed == text)
            changed[2] = random_stamp(random, 1)[0];
        const Grid first = relief(text, 0);
        const auto figure = [&](const std::string& of) {
            const auto found = alike(first, relief(of, turn(random)), {.radius = kLetters / 3});
            return found ? float(found->figure) : NAN;
        };
        same.push_back(figure(text));
        one_letter.push_back(figure(changed));
        other.push_back(figure(third));
    }
    std::printf("%-34s %6s %6s %6s %6s %6s %6s %6s\n", "figures", "least", "5 %", "25 %", "half",
                "75 %", "95 %", "most");
    print_spread("one punch, other ground and wear", same);
    print_spread("one of five letters other", one_letter);
    print_spread("another punch", other);
    return quantile(same, 0.25) > quantile(other, 0.75) ? 0 : 1;
}

} // namespace

int main(int argc, char** argv) {
    const std::string what = argc > 1 ? argv[1] : "";
    const int count = argc > 2 ? std::atoi(argv[2]) : 50;
    const unsigned seed = argc > 3 ? unsigned(std::atoi(argv[3])) : 20261127;
    if (count > 0 && what == "stamps") return stamps(count, seed);
    if (count > 0 && what == "pairs") return pairs(count, seed);
    std::fprintf(stderr, "usage: relief_campaign stamps|pairs [COUNT] [SEED]\n");
    return 2;
}
