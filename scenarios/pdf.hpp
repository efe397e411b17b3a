// A report's PDF by a renderer that the system has: chromium, else weasyprint.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace hoofload::scenarios {

/// Turns an HTML file into a PDF. Throws std::runtime_error with the reason: no renderer is there, or it failed.
void write_pdf(const std::filesystem::path& html, const std::filesystem::path& pdf);

/// The program of that name in the folders of PATH; empty if there is none.
[[nodiscard]] std::filesystem::path find_program(const std::string& name, const std::string& folders);

/// Runs a program without a shell, its output thrown away; returns its exit code, -1 if it could not be started.
[[nodiscard]] int run_program(const std::vector<std::string>& arguments);

}  // namespace hoofload::scenarios
