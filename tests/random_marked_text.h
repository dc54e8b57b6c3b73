// Texts of pieces that mean something to Markdown, with words between them, in any order.
#pragma once

#include <random>
#include <string>
#include <vector>

namespace fettle::test {

inline std::string random_marked_text(std::mt19937& random) {
    static const std::vector<std::string> kPieces = {"*",
                                                     "**",
                                                     "_",
                                                     "__",
                                                     "`",
                                                     "``",
                                                     "```",
                                                     "~~~",
                                                     "#",
                                                     "## ",
                                                     "- ",
                                                     "+ ",
                                                     "* ",
                                                     "> ",
                                                     ">",
                                                     "12. ",
                                                     "3) ",
                                                     "1. ",
                                                     "007. ",
                                                     "---",
                                                     "--",
                                                     "-",
                                                     "===",
                                                     "***",
                                                     "[",
                                                     "](",
                                                     "]",
                                                     "]: ",
                                                     ")",
                                                     "![",
                                                     "<",
                                                     ">",
                                                     "</b>",
                                                     "\"",
                                                     "\\",
                                                     "\\*",
                                                     "&amp;",
                                                     "&#9;",
                                                     "|",
                                                     "~",
                                                     "!",
                                                     "\n",
                                                     "\n",
                                                     "\n\n",
                                                     "\n ",
                                                     "\n    ",
                                                     "\r\n",
                                                     "\t",
                                                     " ",
                                                     " ",
                                                     " ",
                                                     "  \n",
                                                     "H7",
                                                     "A_12_B",
                                                     "31.5 thou",
                                                     "20*30*2",
                                                     "½",
                                                     "Ø12",
                                                     "bolt",
                                                     "x",
                                                     "http://a.b/c",
                                                     "“so”",
                                                     "a@b.c",
                                                     "<http://d.e>"};
    std::string text;
    const std::size_t count = random() % 40;
    for (std::size_t piece = 0; piece < count; ++piece)
        text += kPieces[random() % kPieces.size()];
    return text;
}

} // namespace fettle::test
