// CSV by the rules of RFC 4180, section 2, numbered as there (q-seen: text known, examples its
// own).
#include "base/csv.h"

#include <doctest/doctest.h>

using namespace fettle;
using Fields = std::vector<std::string>;

namespace {

std::vector<Fields> fields_of(std::string_view text) {
    auto table = read_csv(text);
    REQUIRE(table.ok());
    std::vector<Fields> all;
    for (const auto& row : table->rows)
        all.push_back(row.fields);
    return all;
}

std::string sentence(std::string_view text) {
    auto table = read_csv(text);
    return table ? std::string() : table.failure().sentence;
}

} // namespace

TEST_CASE("records and fields as RFC 4180 has them") {
    const std::vector<Fields> two{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}};
    CHECK(fields_of("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") == two); // 1
    CHECK(fields_of("aaa,bbb,ccc\r\nzzz,yyy,xxx") == two);     // 2, no last line end
    CHECK(fields_of("aaa,bbb,ccc\nzzz,yyy,xxx\n") == two);     // and with bare LF or CR
    CHECK(fields_of("aaa,bbb,ccc\rzzz,yyy,xxx\r") == two);
    CHECK(fields_of("a , b\r\n") == std::vector<Fields>{{"a ", " b"}}); // 4: spaces stay
    CHECK(fields_of("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx") == two);  // 5
    CHECK(fields_of("\"aaa\",\"b \r\nbb\",\"ccc\"\r\nzzz,yyy,xxx") ==
          std::vector<Fields>{{"aaa", "b \r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}}); // 6
    CHECK(fields_of("\"aaa\",\"b\"\"bb\",\"ccc\"") ==
          std::vector<Fields>{{"aaa", "b\"bb", "ccc"}}); // 7
    CHECK(fields_of("a,,\r\n") == std::vector<Fields>{{"a", "", ""}});
    CHECK(fields_of("").empty());
}

TEST_CASE("semicolons and tabs are told from the first row, a byte order mark is dropped") {
    CHECK(fields_of("\xEF\xBB\xBF"
                    "a;b,c;d\r\n1;2,5;6\r\n") ==
          std::vector<Fields>{{"a", "b,c", "d"}, {"1", "2,5", "6"}});
    CHECK(fields_of("a\tb\r\n1\t2,5\r\n") == std::vector<Fields>{{"a", "b"}, {"1", "2,5"}});
    CHECK(read_csv("\"a;;;\",b\r\n")->separator == ',');
}

TEST_CASE("rows are counted as a spreadsheet counts them, blank ones too") {
    const auto table = read_csv("a\r\n\r\n,,\r\nb\r\n");
    REQUIRE(table.ok());
    REQUIRE(table->rows.size() == 2);
    CHECK(table->rows[1].number == 4);
    CHECK(table->rows[1].fields == Fields{"b"});
}

TEST_CASE("what is no CSV is refused with the row") {
    CHECK(sentence("a,b\r\nc,d\"e\r\n").find("row 2") != std::string::npos);
    CHECK(sentence("a,b\r\n\"c,d\r\n").find("row 2") != std::string::npos);
    CHECK(sentence("a,\xE4\r\n").find("UTF-8") != std::string::npos);
}

TEST_CASE("Windows-1252 is read where it is said, and never guessed") {
    // Code points from the Unicode consortium's CP1252.TXT (memory).
    const auto table =
        read_csv("\xBE in,\x80 5,H\xE4nger,\x93x\x94,\x81\r\n", CsvText::windows_1252);
    REQUIRE(table.ok());
    CHECK(table->rows[0].fields == Fields{"¾ in", "€ 5", "Hänger", "“x”", "\xEF\xBF\xBD"});
    CHECK(sentence("H\xE4nger\r\n").find("Windows-1252") != std::string::npos);
}

TEST_CASE("what is written is read back the same") {
    const std::vector<Fields> rows{{"a", "b \"c\"", "d,e"}, {"", "two\r\nlines", " 5/16 in "}};
    std::string text;
    for (const auto& row : rows)
        text += csv_row(row);
    CHECK(fields_of(text) == rows);
    CHECK(csv_row({"plain", "5 ½"}) == "plain,5 ½\r\n");
}
