#include "base/marked_text.h"
#include "random_marked_text.h"

#include <doctest/doctest.h>

#include <cctype>
#include <map>

using namespace fettle;

namespace {

std::string in_element(const std::string& name, const std::string& inside) {
    return "<" + name + ">" + inside + "</" + name + ">";
}

std::string html_of(const TextRun& run) {
    std::string text = run.text;
    if (run.code) text = in_element("code", text);
    if (run.strong) text = in_element("strong", text);
    if (run.emphasis) text = in_element("em", text);
    return text;
}

// As the published examples tell what a text means, but for &lt; and line ends between elements,
// and with the words of items always in paragraphs: whether a list is tight is not kept.
std::string html_of(const std::vector<TextBlock>& blocks) {
    std::string html;
    for (const TextBlock& block : blocks) {
        std::string inside = html_of(block.inside);
        for (const TextRun& run : block.runs)
            inside += html_of(run);
        const std::map<TextBlock::Kind, std::string> names = {
            {TextBlock::Kind::paragraph, "p"},
            {TextBlock::Kind::heading, "h" + std::to_string(block.level)},
            {TextBlock::Kind::code, "pre"},
            {TextBlock::Kind::quote, "blockquote"},
            {TextBlock::Kind::item, "li " + block.mark}};
        html += block.kind == TextBlock::Kind::rule ? "<hr />"
                                                    : in_element(names.at(block.kind), inside);
    }
    return html;
}

struct Case {
    const char* marked;
    const char* html;
};

void check_all(const std::vector<Case>& cases) {
    for (const Case& set : cases) {
        CAPTURE(set.marked);
        CHECK(html_of(blocks_of(set.marked)) == set.html);
    }
}

std::string letters_and_figures(std::string_view text) {
    std::string kept;
    for (const char letter : text)
        if (std::isalnum(static_cast<unsigned char>(letter)) != 0 ||
            static_cast<unsigned char>(letter) >= 0x80)
            kept += letter;
    return kept;
}

} // namespace

// CommonMark 0.30 (https://spec.commonmark.org/0.30/), the examples by their numbers.
TEST_CASE("marked text means what CommonMark's examples say: blocks") {
    check_all({
        {"***\n---\n___", "<hr /><hr /><hr />"},                                       // 4.1: 43
        {"===", "<p>===</p>"},                                                         // 4.1: 45
        {"- foo\n***\n- bar", "<li •><p>foo</p></li •><hr /><li •><p>bar</p></li •>"}, // 57
        {"# foo\n## foo\n### foo\n#### foo\n##### foo\n###### foo",
         "<h1>foo</h1><h2>foo</h2><h3>foo</h3><h4>foo</h4><h5>foo</h5><h6>foo</h6>"}, // 4.2: 62
        {"#5 bolt\n\n#hashtag", "<p>#5 bolt</p><p>#hashtag</p>"},                     // 64
        {"# foo *bar* \\*baz\\*", "<h1>foo <em>bar</em> *baz*</h1>"},                 // 66
        {"## foo ##\n  ###   bar    ###", "<h2>foo</h2><h3>bar</h3>"},                // 71
        {"### foo ### b", "<h3>foo ### b</h3>"},                                      // 74
        {"- Foo\n---", "<li •><p>Foo</p></li •><hr />"},                              // 4.3: 94
        {"Foo\n    bar\n", "<p>Foo\nbar</p>"},                                        // 4.4: 113
        {"```\n<\n >\n```", "<pre><\n ></pre>"},                                      // 4.5: 119
        {"~~~\n<\n >\n~~~", "<pre><\n ></pre>"},                                      // 120
        {"~~~~\naaa\n~~~\n~~~~", "<pre>aaa\n~~~</pre>"},                              // 125
        {"`````\n\n```\naaa", "<pre>\n```\naaa</pre>"},                               // 127
        {"aaa\nbbb\n\nccc\nddd", "<p>aaa\nbbb</p><p>ccc\nddd</p>"},                   // 4.8: 220
        {"aaa     \nbbb     ", "<p>aaa\nbbb</p>"},                                    // 226
        {"> # Foo\n> bar\n> baz",
         "<blockquote><h1>Foo</h1><p>bar\nbaz</p></blockquote>"},                        // 5.1: 228
        {"> # Foo\n> bar\nbaz", "<blockquote><h1>Foo</h1><p>bar\nbaz</p></blockquote>"}, // 232
        {"> > > foo\nbar", "<blockquote><blockquote><blockquote><p>foo\nbar</p></blockquote>"
                           "</blockquote></blockquote>"}, // 250
        {"1.  foo\n\n    ```\n    bar\n    ```\n\n    baz\n\n    > bam",
         "<li 1.><p>foo</p><pre>bar</pre><p>baz</p><blockquote><p>bam</p></blockquote></li "
         "1.>"},                                                       // 5.2: 263
        {"123456789. ok", "<li 123456789.><p>ok</p></li 123456789.>"}, // 265
        {"- foo\n-\n- bar", "<li •><p>foo</p></li •><li •></li •><li •><p>bar</p></li •>"}, // 281
        {"1. foo\n2.\n3. bar",
         "<li 1.><p>foo</p></li 1.><li 2.></li 2.><li 3.><p>bar</p></li 3.>"}, // 283
        {"- foo\n  - bar\n    - baz", "<li •><p>foo</p><li •><p>bar</p><li •><p>baz</p></li •>"
                                      "</li •></li •>"}, // 294, its first three lines
        {"- foo\n- bar\n+ baz",
         "<li •><p>foo</p></li •><li •><p>bar</p></li •><li +><p>baz</p></li +>"}, // 5.3: 301
        {"1. foo\n2. bar\n3) baz",
         "<li 1.><p>foo</p></li 1.><li 2.><p>bar</p></li 2.><li 3)><p>baz</p></li 3)>"}, // 302
        {"The number of windows in my house is\n14.  The number of doors is 6.",
         "<p>The number of windows in my house is\n14.  The number of doors is 6.</p>"}, // 304
        {"- a\n  - b\n\n    c\n- d", "<li •><p>a</p><li •><p>b</p><p>c</p></li •></li •>"
                                     "<li •><p>d</p></li •>"}, // 319
    });
}

TEST_CASE("marked text means what CommonMark's examples say: within a line") {
    check_all({
        {"\\*not emphasized*\n1\\. not a list\n\\* not a list\n\\# not a heading",
         "<p>*not emphasized*\n1. not a list\n* not a list\n# not a heading</p>"}, // 2.4: 14, four
                                                                                   // lines of it
        {"`foo`", "<p><code>foo</code></p>"},                                      // 6.1: 328
        {"` foo `` bar `", "<p><code>foo `` bar</code></p>"},                      // 340
        {"*foo`*`", "<p>*foo<code>*</code></p>"},                                  // 341
        {"*foo bar*", "<p><em>foo bar</em></p>"},                                  // 6.2: 350
        {"a*\"foo\"*", "<p>a*\"foo\"*</p>"},                                       // 352
        {"_foo bar_", "<p><em>foo bar</em></p>"},                                  // 356
        {"foo_bar_", "<p>foo_bar_</p>"},                                           // 359
        {"**foo bar**", "<p><strong>foo bar</strong></p>"},                        // 377
        {"** foo bar**", "<p>** foo bar**</p>"},                                   // 378
        {"__foo bar__", "<p><strong>foo bar</strong></p>"},                        // 381
        {"**(**foo)", "<p>**(**foo)</p>"},                                         // 391
        {"*foo **bar** baz*",
         "<p><em>foo </em><em><strong>bar</strong></em><em> baz</em></p>"}, // 409
        {"<http://foo.bar.baz/test?q=hello&id=22&boolean>",
         "<p>http://foo.bar.baz/test?q=hello&id=22&boolean</p>"},        // 6.4: 594, as words
        {"<http://foo.bar/baz bim>", "<p><http://foo.bar/baz bim></p>"}, // 601
        {"foo\\\n     bar", "<p>foo\nbar</p>"},                          // 6.7: 637
        {"foo\nbaz", "<p>foo\nbaz</p>"},                                 // 6.8: 648
    });
}

// Where a log is no essay (base/marked_text.h): what it is to mean is our own decision.
TEST_CASE("what was written as plain text keeps its meaning") {
    check_all({
        {"", ""},
        {"Hanger off.\nPin seized.", "<p>Hanger off.\nPin seized.</p>"},
        {"31.5 thou\n12.5 mm", "<p>31.5 thou\n12.5 mm</p>"},
        {"12. March\n14. April", "<li 12.><p>March</p></li 12.><li 14.><p>April</p></li 14.>"},
        {"007. a", "<li 007.><p>a</p></li 007.>"},
        {"#3 bolt", "<p>#3 bolt</p>"},
        {"20*30*2 mm, 2**8, Ø20*½*3", "<p>20*30*2 mm, 2**8, Ø20*½*3</p>"},
        {"3 * 4 * 5 and A_12_B", "<p>3 * 4 * 5 and A_12_B</p>"},
        {"“*so*”, (*so*), *so*.", "<p>“<em>so</em>”, (<em>so</em>), <em>so</em>.</p>"},
        {"Foo\n---\nbar", "<p>Foo</p><hr /><p>bar</p>"},
        {"Foo\n===", "<p>Foo\n===</p>"},
        {"> Foo\n> --\n> bar", "<blockquote><p>Foo\n--\nbar</p></blockquote>"},
        {"Foo\n-", "<p>Foo\n-</p>"},
        {"    four blanks", "<p>four blanks</p>"},
        {"+ 0.5 mm", "<li +><p>0.5 mm</p></li +>"},
        {"- 2 thou\n- 3 thou", "<li •><p>2 thou</p></li •><li •><p>3 thou</p></li •>"},
        {"~5 mm~, ~~old~~", "<p>~5 mm~, ~~old~~</p>"},
        {"<b>H7</b> &amp; &lt;", "<p><b>H7</b> &amp; &lt;</p>"},
        {"<script>alert(1)</script>", "<p><script>alert(1)</script></p>"},
        {"[foo]: /url \"title\"", "<p>[foo]: /url \"title\"</p>"},
        {"[drawing](a/b.pdf \"sheet 2\")", "<p>drawing (a/b.pdf) (sheet 2)</p>"},
        {"[a/b](a/b) <x@y.example>", "<p>a/b (a/b) x@y.example</p>"},
        {"[](a/b)", "<p>(a/b)</p>"},
        {"![the pin](pin.jpg)", "<p>the pin (pin.jpg)</p>"},
        {"```torque 40\n12. a", "<pre>torque 40\n12. a</pre>"},
        {"a\r\nb\rc\td", "<p>a\nb\nc\td</p>"},
    });
    CHECK(html_of(blocks_of(std::string_view("a\0b\x01\xff", 5))) == "<p>a b \uFFFD</p>");
}

TEST_CASE("no letter and no figure of an entry is lost, whatever its marks") {
    std::mt19937 random(20260307);
    for (int i = 0; i < 4000; ++i) {
        const std::string text = fettle::test::random_marked_text(random);
        CAPTURE(i);
        CAPTURE(text);
        // Addresses and what is said of code stand behind and before other words: they are counted.
        std::string typed = letters_and_figures(text);
        std::string shown = letters_and_figures(words_of_marked(text));
        for (const std::string bullet = "•"; shown.find(bullet) != std::string::npos;)
            shown.erase(shown.find(bullet), bullet.size());
        std::ranges::sort(typed);
        std::ranges::sort(shown);
        REQUIRE(shown == typed);
    }
}

TEST_CASE("quotes and items within each other stop somewhere, their words and numbers do not") {
    CHECK(words_of_marked(std::string(100'000, '>') + " H7").ends_with(" H7"));
    std::string lists;
    for (int number = 1; number <= 20; ++number)
        lists += std::to_string(number) + ". ";
    CHECK(words_of_marked(lists + "H7") == lists + "H7");
}

TEST_CASE("the words of marked text stand alone where there is one line for them") {
    CHECK(words_of_marked("# Springs\n\nDown, *cracked*.\n\n- a\n  - **b**\n\n> 2. c\n\n---\n"
                          "```\n  d\n```") == "Springs\nDown, cracked.\n• a\n  • b\n  2. c\n  d");
    CHECK(first_line_of_marked("\n## Springs, *down*\nand more") == "Springs, down");
    CHECK(first_line_of_marked("1. a\n2. b") == "1. a");
    CHECK(first_line_of_marked("").empty());
}
