#include "base/csv.h"

#include "base/text.h"

#include <csv.h>

#include <algorithm>
#include <array>
#include <istream>

namespace fettle {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

char separator_of(std::string_view text) {
    std::array<std::pair<char, int>, 3> candidates{{{',', 0}, {';', 0}, {'\t', 0}}};
    bool quoted_part = false;
    for (const char sign : text) {
        if (sign == '"') quoted_part = !quoted_part;
        if (!quoted_part && (sign == '\n' || sign == '\r')) break;
        for (auto& [separator, count] : candidates)
            if (!quoted_part && sign == separator) ++count;
    }
    return std::ranges::max_element(candidates, {}, &std::pair<char, int>::second)->first;
}

// Of 0x80 to 0x9F; the rest are the code points of the same number. The Unicode consortium's table
// CP1252.TXT (memory); the five it leaves out become U+FFFD.
constexpr std::array<char16_t, 32> kWindows1252{
    0x20AC, 0xFFFD, 0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0xFFFD, 0x017D, 0xFFFD, 0xFFFD, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0xFFFD, 0x017E, 0x0178};

std::string from_windows_1252(std::string_view text) {
    std::string utf8;
    const auto put = [&](unsigned bits) { utf8 += static_cast<char>(bits); };
    for (const char sign : text) {
        unsigned code = static_cast<unsigned char>(sign);
        if (code >= 0x80 && code < 0xA0) code = kWindows1252[code - 0x80];
        if (code < 0x80) {
            put(code);
        } else if (code < 0x800) {
            put(0xC0 | code >> 6);
            put(0x80 | (code & 0x3F));
        } else {
            put(0xE0 | code >> 12);
            put(0x80 | (code >> 6 & 0x3F));
            put(0x80 | (code & 0x3F));
        }
    }
    return utf8;
}

// What libcsv calls back as it goes.
struct Gathering {
    CsvTable table;
    CsvRow row{1, {}};
    bool after_return = false; // the last row ended with CR: an LF behind it belongs to that

    void field(std::string_view text) {
        row.fields.emplace_back(text);
        after_return = false;
    }
    void end(int sign) {
        const bool blank = std::ranges::all_of(row.fields, &std::string::empty);
        const bool second_half = row.fields.empty() && sign == CSV_LF && after_return;
        after_return = sign == CSV_CR;
        if (second_half) return;
        const int number = row.number;
        if (!blank) table.rows.push_back(std::move(row));
        row = {number + 1, {}};
    }
};

void take_field(void* text, std::size_t size, void* gathering) {
    static_cast<Gathering*>(gathering)->field({static_cast<const char*>(text), size});
}

void take_end(int sign, void* gathering) {
    static_cast<Gathering*>(gathering)->end(sign);
}

int no_space(unsigned char) {
    return 0; // RFC 4180: spaces are part of a field
}

// The parser, freed however its scope is left.
class Parser {
  public:
    explicit Parser(char separator) {
        csv_init(&parser_, CSV_STRICT | CSV_STRICT_FINI | CSV_REPALL_NL);
        csv_set_delim(&parser_, static_cast<unsigned char>(separator));
        csv_set_space_func(&parser_, no_space);
    }
    Parser(const Parser&) = delete;
    Parser& operator=(const Parser&) = delete;
    ~Parser() { csv_free(&parser_); }

    bool feed(std::string_view text, Gathering& into) {
        return csv_parse(&parser_, text.data(), text.size(), take_field, take_end, &into) ==
               text.size();
    }
    bool end(Gathering& into) { return csv_fini(&parser_, take_field, take_end, &into) == 0; }
    bool parse(std::string_view text, Gathering& into) { return feed(text, into) && end(into); }

  private:
    csv_parser parser_{};
};

Failure no_utf8() {
    return {FailureKind::invalid,
            "is not in UTF-8: save it with that character set, or say that it is in Windows-1252"};
}

Failure stray_quote(int row) {
    return {FailureKind::invalid,
            "has a quotation mark that does not fit in row " + std::to_string(row) +
                ": a field with quotation marks stands in quotation marks, and those within it are "
                "doubled"};
}

} // namespace

Result<CsvTable> read_csv(std::string_view text, CsvText in) {
    if (in == CsvText::windows_1252) return read_csv(from_windows_1252(text));
    if (text.starts_with(kByteOrderMark)) text.remove_prefix(kByteOrderMark.size());
    if (safe_utf8(text) != text) return no_utf8();
    Gathering gathering;
    gathering.table.separator = separator_of(text);
    if (!Parser(gathering.table.separator).parse(text, gathering))
        return stray_quote(gathering.row.number);
    return std::move(gathering.table);
}

struct CsvReader::Reading {
    explicit Reading(std::istream& stream) : in(stream) {}

    // Reads on until a row is whole or the text is at its end.
    Done go_on() {
        std::size_t fed = 0;
        while (gathering.table.rows.empty() && !ended) {
            chunk.resize(kChunk);
            in.read(chunk.data(), static_cast<std::streamsize>(chunk.size()));
            chunk.resize(static_cast<std::size_t>(in.gcount()));
            std::string_view text = chunk;
            if (!parser) {
                if (text.starts_with(kByteOrderMark)) text.remove_prefix(kByteOrderMark.size());
                parser.emplace(separator_of(text));
            }
            ended = text.empty();
            if (!(ended ? parser->end(gathering) : parser->feed(text, gathering)))
                return stray_quote(gathering.row.number);
            fed += text.size();
            if (fed > kMostOfRow)
                return Failure{FailureKind::invalid, "has a row " +
                                                         std::to_string(gathering.row.number) +
                                                         " of more than 64 MiB"};
        }
        return done();
    }

    static constexpr std::size_t kChunk = 1 << 16, kMostOfRow = 64 << 20;
    std::istream& in;
    std::optional<Parser> parser; // as soon as the separator is known
    Gathering gathering;
    std::string chunk;
    std::size_t given = 0; // of the rows gathered
    bool ended = false;
};

CsvReader::CsvReader(std::istream& in) : reading_(std::make_unique<Reading>(in)) {}
CsvReader::CsvReader(CsvReader&&) noexcept = default;
CsvReader::~CsvReader() = default;

Result<std::optional<CsvRow>> CsvReader::next() {
    auto& rows = reading_->gathering.table.rows;
    if (reading_->given == rows.size()) {
        rows.clear();
        reading_->given = 0;
        if (auto read = reading_->go_on(); !read) return read.failure();
    }
    if (rows.empty()) return std::optional<CsvRow>();
    CsvRow row = std::move(rows[reading_->given++]);
    for (const auto& field : row.fields)
        if (safe_utf8(field) != field) return no_utf8();
    return std::optional(std::move(row));
}

std::string csv_row(const std::vector<std::string>& fields) {
    std::string row;
    for (std::size_t at = 0; at < fields.size(); ++at) {
        if (at > 0) row += ',';
        if (fields[at].find_first_of(",;\t\"\r\n") == std::string::npos) {
            row += fields[at];
            continue;
        }
        row += '"';
        for (const char sign : fields[at])
            row += sign == '"' ? std::string("\"\"") : std::string(1, sign);
        row += '"';
    }
    return row + "\r\n";
}

} // namespace fettle
