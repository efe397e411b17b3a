// Mutations of case files for fuzzing: deterministic from a seed, half blind to the format and half knowing it.
#pragma once

#include <algorithm>
#include <random>
#include <string>
#include <string_view>
#include <vector>

namespace hoofload::fuzz {

/// Fragments that case files are made of, and ones that have broken parsers.
inline const std::vector<std::string>& fragments() {
  static const std::vector<std::string> list = {"[",
                                                "]",
                                                "[[",
                                                "]]",
                                                "[&",
                                                "{",
                                                "}",
                                                "=",
                                                "\"",
                                                "'",
                                                "\"\"\"",
                                                "'''",
                                                "\\",
                                                "\\u0000",
                                                "\\uD800",
                                                "#",
                                                "\n",
                                                "\r",
                                                ".",
                                                ",",
                                                "\xff",
                                                "\xc3",
                                                "\xc3(",
                                                "\xed\xa0\x80",
                                                std::string(1, '\0'),
                                                "\xef\xbb\xbf",
                                                "nan",
                                                "inf",
                                                "-inf",
                                                "1e999",
                                                "-0",
                                                "0x",
                                                "1_0",
                                                "1979-05-27",
                                                "07:32:00",
                                                "true",
                                                "9223372036854775808",
                                                "mm",
                                                "in",
                                                "deg",
                                                "kg",
                                                "1/0 in",
                                                "1 1/4 in",
                                                "-3 mm",
                                                "1e308 mm",
                                                "[[option]]\n",
                                                "[option.shoe]\n",
                                                "name = \"a\"\n",
                                                "shoe = {}\n",
                                                "shoe.type = \"bare\"\n",
                                                "shoe.type = \"heart bar\"\n",
                                                "packing.region = \"full sole\"\n",
                                                "pad = { type = \"full\", material = \"leather\" }\n",
                                                "[materials]\n",
                                                "\"mild steel\".E = \"1 GPa\"\n",
                                                "lamellae.C20 = \"0 MPa\"\n",
                                                "[foot]\n",
                                                "palmar_angle = \"35 deg\"\n",
                                                "toe_angle = \"35 deg\"\n",
                                                "hl_distal = \"60 mm\"\n",
                                                "sole_depth_tip = \"3 mm\"\n",
                                                "[a.b.c.d.e.f.g.h.i.j.k]\n",
                                                "phases = [\"press\"]\n",
                                                "force = \"1 N\"\n",
                                                "x = [[[[[[[[[[[[\n",
                                                "ground.type = \"elastic\"\n",
                                                "study.seed = -1\n"};
  return list;
}

struct Mutator {
  std::mt19937_64 random;

  std::size_t below(std::size_t n) { return n == 0 ? 0 : static_cast<std::size_t>(random() % n); }

  /// Start and length of a random line, its newline included.
  std::pair<std::size_t, std::size_t> line(const std::string& text) {
    const std::size_t at = below(text.size());
    const std::size_t before = at == 0 ? std::string::npos : text.rfind('\n', at - 1);
    const std::size_t start = before == std::string::npos ? 0 : before + 1;
    const std::size_t end = text.find('\n', at);
    return {start, (end == std::string::npos ? text.size() : end + 1) - start};
  }

  void mutate_once(std::string& text) {
    const std::size_t at = below(text.size() + 1);
    switch (below(9)) {
      case 0:
        if (!text.empty()) text[below(text.size())] = static_cast<char>(random());
        break;
      case 1:
        text.erase(at, 1 + below(8));
        break;
      case 2:
        text.insert(at, fragments()[below(fragments().size())]);
        break;
      case 3: {
        const auto [start, length] = line(text);
        text.erase(start, length);
        break;
      }
      case 4: {
        const auto [start, length] = line(text);
        text.insert(line(text).first, text.substr(start, length));
        break;
      }
      case 5: {
        const auto [start, length] = line(text);
        (void)length;
        text.insert(start, fragments()[below(fragments().size())]);
        break;
      }
      case 6: {
        const std::size_t digit = text.find_first_of("0123456789", at);
        if (digit != std::string::npos) text[digit] = static_cast<char>('0' + below(10));
        break;
      }
      case 7:
        text.resize(at);
        break;
      default: {
        const std::size_t from = below(text.size() + 1);
        text.insert(at, text.substr(from, below(64)));
      }
    }
  }

  std::string mutated(const std::vector<std::string>& seeds) {
    std::string text = seeds[below(seeds.size())];
    for (std::size_t k = 1 + below(6); k > 0; --k) mutate_once(text);
    return text;
  }
};

}  // namespace hoofload::fuzz
