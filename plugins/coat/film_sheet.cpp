#include "coat/film_sheet.h"

#include <algorithm>
#include <cmath>

namespace fettle::coat {
namespace {

using plugin::line;
using plugin::Outcome;
using plugin::Refusal;

constexpr std::size_t kPartColumns = 5;
constexpr double kMostPieces = 1e4;
constexpr double kMostLength = 100; // m
constexpr double kHair = 1e-9;

std::optional<Refusal> unfit_typed(const FilmTyped& typed) {
    const bool known = typed.area_by == kAreaBy[1];
    const bool two = typed.pack == kPacks[1];
    const std::optional<double> none;
    if (auto no =
            unfit({{"dry_film", typed.dry_film, kFilmBounds, film, true},
                   {"coats", typed.coats, kCoatBounds, plain, false},
                   {"solids", typed.solids, kShareBounds, percent, true},
                   {"thinning", typed.thinning, kThinningBounds, percent, false},
                   {"loss", typed.loss, kLossBounds, percent, false},
                   {"profile", typed.profile, kProfileBounds, film, false},
                   {"area", known ? typed.area : none, kAreaBounds, square, known},
                   {"most_wet", typed.most_wet, kFilmBounds, film, false},
                   {"tin", typed.tin, kTinBounds, litres, false},
                   {"base_parts", two ? typed.base_parts : none, kMixBounds, plain, two},
                   {"hardener_parts", two ? typed.hardener_parts : none, kMixBounds, plain, two},
                   {"pot_life", typed.pot_life, kTimeBounds, spell, false},
                   {"since_mixed", typed.since_mixed, kSinceBounds, spell, false}}))
        return no;
    if (typed.coats && *typed.coats != std::floor(*typed.coats))
        return Refusal{"coats", line("coats: ", plain(*typed.coats),
                                     " is no whole number; accepted are 1 to 20.")};
    for (const double tooth : typed.comb)
        if (!(tooth > 0 && tooth <= kFilmBounds.greatest))
            return Refusal{"comb", line("comb: a tooth of ", film(tooth),
                                        "; accepted are teeth above 0 up to ",
                                        film(kFilmBounds.greatest), ".")};
    return std::nullopt;
}

std::string range_of(const char* what, double value, double greatest) {
    return line(what, " ", plain(value), "; accepted is above 0 up to ", plain(greatest));
}

// One row of the parts list, or why it cannot be one.
Outcome<Part> part_of(const double* cells, std::size_t row) {
    const auto no = [row](const std::string& why) {
        return Refusal{"parts", line("parts: row ", std::to_string(row + 1), " has ", why, ".")};
    };
    const auto good = [](double value, double greatest) { return value > 0 && value <= greatest; };
    const double shape = cells[0];
    if (!(shape >= 0 && shape < static_cast<double>(kShapes.size())) || shape != std::floor(shape))
        return no("no shape; accepted are face, sheet, round and box");
    if (!good(cells[1], kMostLength)) return no(range_of("the length in m", cells[1], kMostLength));
    if (!good(cells[2], kMostLength)) return no(range_of("the width in m", cells[2], kMostLength));
    const bool box = static_cast<int>(shape) == 3;
    if (box && !good(cells[3], kMostLength))
        return no(std::isnan(cells[3]) ? "a box and no depth; accepted is the other side of it"
                                       : range_of("the depth in m", cells[3], kMostLength));
    const double pieces = std::isnan(cells[4]) ? 1 : cells[4];
    if (!good(pieces, kMostPieces))
        return no(range_of("the number of pieces", pieces, kMostPieces));
    return Part{static_cast<int>(shape), cells[1], cells[2], box ? cells[3] : 0, pieces};
}

std::optional<Refusal> add_parts(const FilmTyped& typed, FilmAnswer& answer) {
    const std::size_t rows = typed.parts.size() / kPartColumns;
    if (rows == 0)
        return Refusal{"parts", "parts: the list is empty; accepted are rows of shape, length, "
                                "width, depth for a box, and pieces."};
    for (std::size_t row = 0; row < rows; ++row) {
        const auto part = part_of(&typed.parts[row * kPartColumns], row);
        if (const auto* no = std::get_if<Refusal>(&part)) return *no;
        const Part& one = std::get<Part>(part);
        const double area = surface(one);
        answer.parts.push_back({static_cast<double>(row + 1), area, 0});
        answer.area += area;
        answer.account.working.push_back(line(
            "row ", std::to_string(row + 1), ", ", kShapes[static_cast<std::size_t>(one.shape)],
            ": ", plain(one.pieces), " × ", plain(one.length), " m × ",
            plain(area / one.pieces / one.length), " m round = ", square(area)));
    }
    return std::nullopt;
}

// "last wetted tooth 75 µm, first dry 100 µm"
std::string comb_words(double wet, std::vector<double> teeth) {
    if (teeth.empty()) return line("no comb typed; wet film ", film(wet));
    std::ranges::sort(teeth);
    const auto dry = std::ranges::upper_bound(teeth, wet * (1 + kHair));
    if (dry == teeth.begin()) return line("all teeth stay dry; the lowest is ", film(*dry));
    if (dry == teeth.end())
        return line("all teeth are wetted; the highest is ", film(teeth.back()));
    return line("last wetted tooth ", film(*(dry - 1)), ", first dry tooth ", film(*dry));
}

std::string tin_words(double paint, const std::optional<double>& tin) {
    if (!tin) return line(litres(paint), ", size of tin not typed");
    const double tins = std::ceil(paint / *tin * (1 - kHair));
    return line(decimals(std::max(1.0, tins), 0), tins > 1 ? " tins of " : " tin of ", litres(*tin),
                ", ", litres(std::max(1.0, tins) * *tin - paint), " left over");
}

void judge_wet(const FilmTyped& typed, FilmAnswer& answer) {
    if (!typed.most_wet || answer.wet_film <= *typed.most_wet * (1 + kHair)) return;
    const double coats =
        std::ceil(answer.wet_film * typed.coats.value_or(1) / *typed.most_wet * (1 - kHair));
    answer.account.notes.push_back(
        {FETTLE_STOP, line("One coat of ", film(answer.wet_film), " wet is more than the ",
                           film(*typed.most_wet),
                           " the paint holds: it runs, skins over and keeps "
                           "its solvent. Lay it on in ",
                           decimals(coats, 0), " coats.")});
}

void mix(const FilmTyped& typed, FilmAnswer& answer) {
    if (typed.pack != kPacks[1]) return;
    auto& notes = answer.account.notes;
    const double whole = *typed.base_parts + *typed.hardener_parts;
    answer.base = answer.per_coat * *typed.base_parts / whole;
    answer.hardener = answer.per_coat * *typed.hardener_parts / whole;
    answer.account.working.push_back(line("for one coat: base ", plain(*typed.base_parts), "/",
                                          plain(whole), " = ", litres(*answer.base), ", hardener ",
                                          plain(*typed.hardener_parts), "/", plain(whole), " = ",
                                          litres(*answer.hardener)));
    notes.push_back({FETTLE_CAUTION,
                     "Hardeners with isocyanates cause lasting asthma: air-fed mask, gloves, no "
                     "bystanders, and licensed practice where the law asks for it. Mix by the data "
                     "sheet, never by eye; a large pot heats up and may smoke."});
    if (!typed.since_mixed) return;
    if (!typed.pot_life) {
        notes.push_back({FETTLE_CAUTION, "The pot life was not typed, so it was not judged."});
    } else if (*typed.since_mixed > *typed.pot_life * (1 + kHair)) {
        notes.push_back({FETTLE_STOP, line("Mixed ", spell(*typed.since_mixed), " ago, pot life ",
                                           spell(*typed.pot_life),
                                           ": throw it away, also when it still flows, and never "
                                           "thin it back. It no longer bonds.")});
    } else {
        notes.push_back(
            {FETTLE_INFO, line(spell(*typed.pot_life - *typed.since_mixed), " of pot life left.")});
    }
}

void tabulate(const FilmTyped& typed, const Paint& paint, double profile, FilmAnswer& answer) {
    const int coats = static_cast<int>(typed.coats.value_or(1));
    for (PartArea& part : answer.parts)
        part.paint = answer.paint * part.area / answer.area;
    const double fill = profile > 0 ? paint_volume(answer.area, profile, paint) : 0;
    for (int i = 1; i <= coats; ++i)
        answer.rows.push_back({static_cast<double>(i), answer.wet_film, answer.dry_coat * i,
                               answer.per_coat + (i == 1 ? fill : 0)});
}

plugin::Picture picture_of(const FilmTyped& typed, const Paint& paint, const FilmAnswer& answer) {
    double most = 1.5 * answer.wet_film;
    std::vector<fettle_point> teeth;
    for (const double tooth : typed.comb)
        if (tooth <= 2 * answer.wet_film) {
            teeth.push_back({tooth, dry_film(tooth, paint)});
            most = std::max(most, tooth);
        }
    plugin::Picture picture{"film", {}, {}};
    picture.traces = {
        {"dry from wet", FETTLE_LINE, {{0, 0}, {most, dry_film(most, paint)}}},
        {"dry film of a coat", FETTLE_DASHED, {{0, answer.dry_coat}, {most, answer.dry_coat}}},
        {"", FETTLE_DOTS, {{answer.wet_film, answer.dry_coat}}}};
    if (!teeth.empty()) picture.traces.push_back({"teeth of the comb", FETTLE_DOTS, teeth});
    picture.labels = {{{answer.wet_film, answer.dry_coat}, line("lay on ", film(answer.wet_film))}};
    return picture;
}

void reckon(const FilmTyped& typed, const Paint& paint, double profile, FilmAnswer& answer) {
    const double coats = typed.coats.value_or(1);
    answer.dry_coat = *typed.dry_film / coats;
    answer.wet_film = wet_film(answer.dry_coat, paint);
    answer.comb = comb_words(answer.wet_film, typed.comb);
    answer.paint = paint_volume(answer.area, *typed.dry_film + profile, paint);
    answer.per_coat = paint_volume(answer.area, answer.dry_coat, paint);
    answer.thinner = answer.paint * paint.thinning;
    answer.tins = tin_words(answer.paint, typed.tin);
    const double spread = coverage(answer.dry_coat, paint); // m2 a m3
    answer.coverage = spread / 1000;
    answer.coverage_us = spread * kUsGallon / kSquareFoot;
    auto& working = answer.account.working;
    working.push_back(line("dry film of a coat = ", film(*typed.dry_film), " / ", plain(coats),
                           " = ", film(answer.dry_coat)));
    working.push_back(line("wet film of a coat = ", film(answer.dry_coat), " × (1 + ",
                           plain(paint.thinning), ") / ", plain(paint.solids), " = ",
                           film(answer.wet_film)));
    working.push_back(line("coverage, no loss = ", plain(paint.solids), " / ",
                           film(answer.dry_coat), " = ", plain(answer.coverage), " m²/L (",
                           plain(answer.coverage_us), " ft²/US gal)"));
    working.push_back(line("paint, all coats = ", square(answer.area), " × (",
                           film(*typed.dry_film), profile > 0 ? " + profile " : "",
                           profile > 0 ? film(profile) : "", ") / ", plain(paint.solids),
                           " / (1 - ", plain(paint.loss), ") = ", litres(answer.paint)));
    working.push_back(
        line("thinner = ", percent(paint.thinning), " of it = ", litres(answer.thinner)));
}

} // namespace

Outcome<FilmAnswer> work_film(const FilmTyped& typed) {
    if (auto no = unfit_typed(typed)) return *no;
    FilmAnswer answer{};
    if (typed.area_by == kAreaBy[1])
        answer.area = *typed.area;
    else if (auto no = add_parts(typed, answer))
        return *no;
    const Paint paint{*typed.solids, typed.thinning.value_or(0), typed.loss.value_or(0)};
    const double profile = typed.profile.value_or(0);
    reckon(typed, paint, profile, answer);
    judge_wet(typed, answer);
    mix(typed, answer);
    tabulate(typed, paint, profile, answer);
    answer.picture = picture_of(typed, paint, answer);
    auto& notes = answer.account.notes;
    if (!typed.loss)
        notes.push_back({FETTLE_CAUTION, "No loss was typed: brush and roller leave 5 to 10 % "
                                         "behind, a spray gun 30 to 60 % (common practice, no "
                                         "source)."});
    if (profile > 0)
        notes.push_back({FETTLE_INFO, line("The first coat takes ",
                                           litres(answer.rows.front().paint - answer.per_coat),
                                           " more than the others, to fill the profile. The comb "
                                           "does not see it.")});
    else
        notes.push_back({FETTLE_INFO, "Blasted steel swallows paint before any shows over its "
                                      "peaks: type the profile for the first coat."});
    notes.push_back({FETTLE_INFO, "Press the comb in at once after laying on, square to the "
                                  "surface, on a flat place; then brush the marks out."});
    return answer;
}

} // namespace fettle::coat
