#include "screw_threads/designation.h"

#include "screw_threads/series.h"
#include "screw_threads/words.h"

#include <cctype>
#include <cmath>
#include <cstdlib>
#include <optional>

namespace fettle::screw {
namespace {

using plugin::line;
using plugin::Outcome;
using plugin::Refusal;

constexpr std::size_t kLongestDesignation = 32;

// ---- A scanner over the designation in capitals

class Scanner {
  public:
    explicit Scanner(std::string_view text) : text_(text) {}

    bool at_end() const { return at_ == text_.size(); }
    char next() const { return at_end() ? '\0' : text_[at_]; }
    std::size_t mark() const { return at_; }
    void back_to(std::size_t mark) { at_ = mark; }

    bool take(char wanted) {
        if (next() != wanted) return false;
        ++at_;
        return true;
    }
    bool take(std::string_view word) {
        if (text_.substr(at_, word.size()) != word) return false;
        at_ += word.size();
        return true;
    }
    void skip_spaces() {
        while (take(' ')) {
        }
    }

    // Up to `most` digits; "" when there is none.
    std::string digits(std::size_t most) {
        const std::size_t from = at_;
        while (at_ - from < most && std::isdigit(static_cast<unsigned char>(next())) != 0)
            ++at_;
        return std::string(text_.substr(from, at_ - from));
    }

    // "10", "1.5", ".5" or "0,75"; nothing is read when there is no digit.
    std::optional<double> decimal() {
        const std::size_t from = at_;
        const std::string whole = digits(3);
        std::string part;
        const std::size_t point = at_;
        if (take('.') || take(',')) part = digits(5);
        if (part.empty()) at_ = point;
        if (whole.empty() && part.empty()) {
            at_ = from;
            return std::nullopt;
        }
        return std::strtod(line(whole, ".", part, "0").c_str(), nullptr);
    }

  private:
    std::string_view text_;
    std::size_t at_ = 0;
};

// Capitals, the multiplication sign as X, no spaces at the ends.
std::string capitals(std::string_view typed) {
    static constexpr std::string_view kCross = "\u00d7";
    std::string plain;
    for (std::size_t i = 0; i < typed.size(); ++i) {
        if (typed.substr(i, kCross.size()) == kCross) {
            plain += 'X';
            i += kCross.size() - 1;
        } else {
            plain += static_cast<char>(std::toupper(static_cast<unsigned char>(typed[i])));
        }
    }
    const std::size_t first = plain.find_first_not_of(' ');
    if (first == std::string::npos) return "";
    return plain.substr(first, plain.find_last_not_of(' ') - first + 1);
}

// Who asks: what was typed, and the field to blame.
struct Asked {
    std::string_view typed;
    const char* field;

    Refusal refusal(const std::string& why) const {
        return {field, line(field, ": ", in_quotes(typed), " ", why)};
    }
    Refusal unreadable() const {
        return refusal("is not a thread this sheet can read; accepted are designations like "
                       "5/16-24 UNF, 1/4-20 UNC, #10-32, 1 1/8-8 UN, 3/8-20 BSF, 1/2-12 BSW, "
                       "1/4-26 BSC, 2BA, M10x1.5 and M8.");
    }
};

// A tolerance class at the end: "-2A", " 3B", "-6G", "-6H/6G" is not read. Nothing is one too.
bool rest_is_class(Scanner& scan) {
    scan.skip_spaces();
    scan.take('-');
    scan.skip_spaces();
    if (scan.at_end()) return true;
    if (scan.digits(1).empty()) return false;
    const char letter = scan.next();
    const bool known = letter == 'A' || letter == 'B' || letter == 'G' || letter == 'H';
    return known && scan.take(letter) && scan.at_end();
}

// ---- Metric and BA

bool same_size(double a, double b) {
    return std::abs(a - b) < 1e-9;
}

Outcome<Thread> metric_thread(const Asked& asked, double diameter, std::optional<double> pitch) {
    bool standard = false;
    for (const MetricSize& coarse : coarse_pitches()) {
        if (!same_size(coarse.diameter, diameter)) continue;
        if (!pitch) pitch = coarse.pitch;
        standard = standard || same_size(coarse.pitch, *pitch);
    }
    if (!pitch)
        return asked.refusal("has no coarse pitch in ISO 261; add the pitch, as in M9x1.25.");
    for (const MetricSize& fine : fine_pitches())
        standard =
            standard || (same_size(fine.diameter, diameter) && same_size(fine.pitch, *pitch));
    if (diameter < 1 || diameter > 100 || *pitch < 0.1 || *pitch > diameter / 3) {
        return asked.refusal("is no usable metric thread; accepted are M1 to M100 with a pitch of "
                             "0.1 mm to a third of the diameter.");
    }
    const std::string name = line("M", plain_number(diameter), "x", plain_number(*pitch));
    return Thread{name, Form::metric, diameter / 1e3, *pitch / 1e3, standard, false};
}

std::optional<Outcome<Thread>> metric(const Asked& asked, Scanner scan) {
    if (!scan.take('M')) return std::nullopt;
    scan.skip_spaces();
    const auto diameter = scan.decimal();
    if (!diameter) return std::nullopt;
    // A sign and a number after it are the pitch, unless they are a tolerance class such as -6G.
    std::optional<double> pitch;
    const std::size_t mark = scan.mark();
    scan.skip_spaces();
    if (scan.take('X') || scan.take('*') || scan.take('-')) {
        scan.skip_spaces();
        pitch = scan.decimal();
        if (!pitch) return std::nullopt;
        if (std::isalpha(static_cast<unsigned char>(scan.next())) != 0) pitch.reset();
    }
    if (!pitch) scan.back_to(mark);
    if (!rest_is_class(scan)) return std::nullopt;
    return metric_thread(asked, *diameter, pitch);
}

bool take_ba(Scanner& scan) {
    if (!scan.take('B')) return false;
    scan.take('.');
    if (!scan.take('A')) return false;
    scan.take('.');
    return true;
}

std::optional<Outcome<Thread>> association(const Asked& asked, Scanner scan) {
    std::string number = scan.digits(2);
    scan.skip_spaces();
    if (!take_ba(scan)) return std::nullopt;
    scan.skip_spaces();
    if (number.empty()) number = scan.digits(2);
    if (number.empty() || !scan.at_end()) return std::nullopt;
    const std::size_t index = std::strtoul(number.c_str(), nullptr, 10);
    if (index >= association_threads().size())
        return asked.refusal("is not in the BA series; accepted are 0BA to 12BA.");
    const MetricSize& row = association_threads()[index];
    return Thread{line(std::to_string(index), "BA"), Form::british_association, row.diameter / 1e3,
                  row.pitch / 1e3};
}

// ---- Inch

struct InchTyped {
    double inches = 0;
    std::string size;   // as in the table when it is there
    double tpi = 0;     // 0: not typed
    std::string series; // "": not typed
    const InchSize* row = nullptr;
};

// "#10", "NO.10", "1 1/8", "1-1/8", "5/16", "0.3125", ".25", "1". False when it is no size.
bool read_size(Scanner& scan, InchTyped& typed) {
    if (scan.take('#') || scan.take("NO")) {
        scan.take('.');
        scan.skip_spaces();
        const std::string number = scan.digits(2);
        typed.size = line("#", number);
        typed.inches = 0.060 + 0.013 * std::atoi(number.c_str());
        return !number.empty();
    }
    const std::size_t mark = scan.mark();
    std::string whole = scan.digits(2);
    std::string top;
    if (scan.next() == '/') {
        top.swap(whole);
    } else if (!whole.empty() && (scan.take(' ') || scan.take('-'))) {
        top = scan.digits(2);
    }
    if (!top.empty() && scan.take('/')) {
        const std::string bottom = scan.digits(2);
        if (bottom.empty() || std::atoi(bottom.c_str()) == 0) return false;
        typed.size = line(whole, whole.empty() ? "" : " ", top, "/", bottom);
        typed.inches = std::atoi(whole.c_str()) +
                       static_cast<double>(std::atoi(top.c_str())) / std::atoi(bottom.c_str());
        return true;
    }
    scan.back_to(mark);
    const auto decimal = scan.decimal();
    if (!decimal) return false;
    typed.inches = *decimal;
    typed.size = plain_number(*decimal);
    return true;
}

// The series behind the size, the longest name first.
std::string read_series(Scanner& scan) {
    static constexpr std::string_view kNames[] = {"UNEF", "UNC", "UNF", "UNS", "UN",  "BSW",
                                                  "BSF",  "BSC", "BSB", "CEI", "WHIT"};
    for (const std::string_view name : kNames) {
        if (scan.take(name)) return std::string(name == "CEI" ? "BSC" : name);
    }
    return "";
}

bool read_inch(Scanner& scan, InchTyped& typed) {
    if (!read_size(scan, typed)) return false;
    scan.skip_spaces();
    if (!scan.take("IN")) scan.take('"');
    scan.skip_spaces();
    if (scan.take('-') || scan.take('X')) scan.skip_spaces();
    if (const auto tpi = scan.decimal()) {
        typed.tpi = *tpi;
        scan.skip_spaces();
        scan.take("TPI");
    }
    scan.skip_spaces();
    const std::size_t mark = scan.mark();
    scan.take('-'); // 1 1/8 8-UN
    typed.series = read_series(scan);
    if (typed.series.empty()) scan.back_to(mark);
    return rest_is_class(scan);
}

void find_row(InchTyped& typed) {
    const bool numbered = typed.size.front() == '#';
    for (const InchSize& row : inch_sizes()) {
        const bool named_alike = (row.size[0] == '#') == numbered;
        if (named_alike && std::abs(row.inches - typed.inches) < 1e-6) typed.row = &row;
    }
    if (typed.row != nullptr) typed.size = typed.row->size;
}

Thread inch_thread(const InchTyped& typed, double tpi, const char* series, Form form,
                   bool of_diameter, bool standard) {
    return {line(typed.size, "-", plain_number(tpi), " ", series),
            form,
            typed.inches * kInch,
            kInch / tpi,
            standard,
            of_diameter};
}

// Every standard thread of this size and, when it was typed, this pitch.
std::vector<Thread> candidates(const InchTyped& typed) {
    std::vector<Thread> found;
    if (typed.row == nullptr) return found;
    for (const Series& series : inch_series()) {
        const double tpi = typed.row->*series.tpi;
        if (tpi == 0 || (typed.tpi != 0 && typed.tpi != tpi)) continue;
        found.push_back(
            inch_thread(typed, tpi, series.name, series.form, series.of_diameter, true));
    }
    return found;
}

Outcome<Thread> ask_back(const Asked& asked, const std::vector<Thread>& could_be) {
    if (could_be.size() == 1) return could_be.front();
    if (could_be.empty()) {
        return asked.refusal(
            "is in none of UNC, UNF, UNEF, 8-UN, BSW, BSF, BSC and BSB; if it is a special, "
            "add its form: UNS for 60° or WHIT for 55°.");
    }
    std::string names;
    for (std::size_t i = 0; i < could_be.size(); ++i)
        names += line(i == 0 ? "" : (i + 1 == could_be.size() ? " or " : ", "), could_be[i].name);
    return asked.refusal(line("could be ", names, "; type the one it is."));
}

// UN alone is 8-UN where the table has it and a special elsewhere, and UNEF is taken at its word;
// BSC has 20 to the inch too in the larger sizes (BS 811, from memory).
bool other_pitch_allowed(const Series& series, const InchTyped& typed) {
    const std::string_view name = series.name;
    return (name == "UN" && typed.tpi != 0) || (name == "UNEF" && typed.tpi != 0) ||
           (name == "BSC" && typed.tpi == 20 && typed.inches > 0.43);
}

Outcome<Thread> inch_from_parts(const Asked& asked, const InchTyped& typed) {
    if (typed.inches < 0.05 || typed.inches > 4)
        return asked.refusal("is no usable inch thread; accepted are #0 to 4 in.");
    if (typed.series.empty()) return ask_back(asked, candidates(typed));
    Form special = typed.series == "WHIT" ? Form::whitworth : Form::unified;
    for (const Series& series : inch_series()) {
        if (typed.series != series.name) continue;
        const double tpi = typed.row == nullptr ? 0 : typed.row->*series.tpi;
        if (tpi != 0 && (typed.tpi == 0 || typed.tpi == tpi)) {
            return inch_thread(typed, tpi, series.name, series.form, series.of_diameter, true);
        }
        if (other_pitch_allowed(series, typed)) {
            special = series.form;
            break;
        }
        if (tpi == 0) return asked.refusal(line("is no size of the ", series.name, " series."));
        return asked.refusal(line("does not exist: ", typed.size, " ", series.name, " has ",
                                  plain_number(tpi), " threads to the inch."));
    }
    if (typed.tpi < 4 || typed.tpi > 100 || typed.tpi * typed.inches < 3) {
        return asked.refusal("needs its threads to the inch, 4 to 100 and at least three to the "
                             "diameter, as in 1-14 UNS.");
    }
    return inch_thread(typed, typed.tpi, typed.series.c_str(), special, false, false);
}

// "G 1/2", "R 1/8", "1/8-27 NPT", "1/2 BSP", "3/4 BSPT".
bool is_pipe(std::string_view plain) {
    if (plain.empty()) return false;
    const bool lettered = plain.size() > 1 && (plain[0] == 'G' || plain[0] == 'R') &&
                          (plain[1] == ' ' || std::isdigit(static_cast<unsigned char>(plain[1])));
    return lettered || plain.find("NPT") != std::string_view::npos ||
           plain.find("BSP") != std::string_view::npos;
}

} // namespace

Outcome<Thread> read_thread(std::string_view designation, const char* field) {
    const Asked asked{designation, field};
    if (designation.size() > kLongestDesignation) return asked.unreadable();
    const std::string plain = capitals(designation);
    if (auto read = metric(asked, Scanner(plain))) return *read;
    if (auto read = association(asked, Scanner(plain))) return *read;
    if (is_pipe(plain)) {
        return asked.refusal(
            "is a pipe thread: it seals or joins pipes, and no bolt is reckoned on "
            "it.");
    }
    InchTyped typed;
    Scanner scan(plain);
    if (!read_inch(scan, typed)) return asked.unreadable();
    find_row(typed);
    return inch_from_parts(asked, typed);
}

} // namespace fettle::screw
