// Draws the fields that `hoofload film` wrote as PNG frames, all with one scale: hoofload_film FOLDER FRAMES. Needs a display, a
// virtual one will do (film.sh). The only program here that links VTK; built with -DHOOFLOAD_FILM=ON.
#include <vtkActor.h>
#include <vtkCamera.h>
#include <vtkCellData.h>
#include <vtkDataSetMapper.h>
#include <vtkDoubleArray.h>
#include <vtkFieldData.h>
#include <vtkGeometryFilter.h>
#include <vtkLookupTable.h>
#include <vtkNew.h>
#include <vtkPNGWriter.h>
#include <vtkProperty.h>
#include <vtkRenderWindow.h>
#include <vtkRenderer.h>
#include <vtkScalarBarActor.h>
#include <vtkStringArray.h>
#include <vtkTextActor.h>
#include <vtkTextProperty.h>
#include <vtkThreshold.h>
#include <vtkUnstructuredGrid.h>
#include <vtkWarpVector.h>
#include <vtkWindowToImageFilter.h>
#include <vtkXMLUnstructuredGridReader.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "viz/cautions.hpp"

namespace {

namespace fs = std::filesystem;

constexpr double kMagnified = 3;       ///< as `hoofload film` lays its lines out
constexpr double kMostPressure = 600;  ///< upper end of the colours [kPa]
constexpr int kWidth = 720, kHeight = 500, kFoot = 60;

struct Style {
  double r, g, b, width;
};
const std::map<std::string, Style> kLines{
    {"outer wall", {.25, .25, .25, 2.5}}, {"inner wall", {.55, .55, .55, 1}},   {"coronet", {.25, .25, .25, 2}},
    {"distal phalanx", {.45, .35, .15, 2}}, {"navicular", {.45, .35, .15, 2}},  {"ground", {.1, .1, .1, 3}},
    {"ground force", {.75, .1, .1, 5}},   {"deep flexor tendon", {.1, .25, .7, 4}}};

vtkSmartPointer<vtkUnstructuredGrid> read(const fs::path& file) {
  vtkNew<vtkXMLUnstructuredGridReader> reader;
  reader->SetFileName(file.c_str());
  reader->Update();
  if (reader->GetErrorCode() != 0 || reader->GetOutput()->GetNumberOfPoints() == 0)
    throw std::runtime_error(file.string() + ": cannot be read as a VTU file");
  return reader->GetOutput();
}

std::vector<std::string> region_names(vtkUnstructuredGrid* grid) {
  auto* names = vtkStringArray::SafeDownCast(grid->GetFieldData()->GetAbstractArray("region_names"));
  if (names == nullptr) throw std::runtime_error("a VTU file names no regions");
  std::vector<std::string> list;
  for (vtkIdType k = 0; k < names->GetNumberOfValues(); ++k) list.push_back(names->GetValue(k));
  return list;
}

vtkSmartPointer<vtkLookupTable> pressure_colours() {
  auto table = vtkSmartPointer<vtkLookupTable>::New();
  table->SetNumberOfTableValues(12);
  table->SetTableRange(0, kMostPressure);
  for (int k = 0; k < 12; ++k) {  // light to dark, so that it reads in grey as well
    const double t = k / 11.0;
    table->SetTableValue(k, 0.98 - 0.85 * t, 0.95 - 0.78 * t, 0.86 - 0.45 * t);
  }
  return table;
}

vtkSmartPointer<vtkThreshold> cells_of(vtkUnstructuredGrid* grid, int region) {
  auto only = vtkSmartPointer<vtkThreshold>::New();
  only->SetInputData(grid);
  only->SetInputArrayToProcess(0, 0, 0, vtkDataObject::FIELD_ASSOCIATION_CELLS, "region_id");
  only->SetLowerThreshold(region - 0.5);
  only->SetUpperThreshold(region + 0.5);
  return only;
}

/// Adds the cells' pressure in the unit that page and pictures use [kPa].
void add_pressure_in_kPa(vtkUnstructuredGrid* grid) {
  auto* pressure = grid->GetCellData()->GetArray("pressure_MPa");
  if (pressure == nullptr) throw std::runtime_error("a VTU file has no pressure_MPa");
  vtkNew<vtkDoubleArray> scaled;
  scaled->SetName("pressure_kPa");
  for (vtkIdType k = 0; k < pressure->GetNumberOfTuples(); ++k) scaled->InsertNextValue(1e3 * pressure->GetTuple1(k));
  grid->GetCellData()->AddArray(scaled);
}

/// The cells of one region, displaced; `colours` null: in one grey.
void add_region(vtkRenderer* renderer, vtkUnstructuredGrid* grid, int region, vtkLookupTable* colours) {
  const auto only = cells_of(grid, region);
  vtkNew<vtkWarpVector> warped;
  warped->SetInputConnection(only->GetOutputPort());
  warped->SetInputArrayToProcess(0, 0, 0, vtkDataObject::FIELD_ASSOCIATION_POINTS, "displacement_mm");
  warped->SetScaleFactor(kMagnified);
  vtkNew<vtkGeometryFilter> surface;
  surface->SetInputConnection(warped->GetOutputPort());
  vtkNew<vtkDataSetMapper> mapper;
  mapper->SetInputConnection(surface->GetOutputPort());
  vtkNew<vtkActor> actor;
  if (colours != nullptr) {
    mapper->SetLookupTable(colours);
    mapper->SetScalarRange(0, kMostPressure);
    mapper->SetScalarModeToUseCellFieldData();
    mapper->SelectColorArray("pressure_kPa");
  } else {
    mapper->ScalarVisibilityOff();
    actor->GetProperty()->SetColor(0.72, 0.74, 0.76);
  }
  actor->SetMapper(mapper);
  actor->GetProperty()->LightingOff();
  renderer->AddActor(actor);
}

/// The lines of one region; a force is named with what it is.
void add_lines(vtkRenderer* renderer, vtkUnstructuredGrid* grid, int region, const std::string& name) {
  const auto only = cells_of(grid, region);
  vtkNew<vtkDataSetMapper> mapper;
  mapper->SetInputConnection(only->GetOutputPort());
  mapper->ScalarVisibilityOff();
  vtkNew<vtkActor> actor;
  actor->SetMapper(mapper);
  const Style style = kLines.count(name) > 0 ? kLines.at(name) : Style{.4, .4, .4, 1};
  actor->GetProperty()->SetColor(style.r, style.g, style.b);
  actor->GetProperty()->SetLineWidth(static_cast<float>(style.width));
  actor->GetProperty()->LightingOff();
  actor->SetPosition(0, 0, 1);
  renderer->AddActor(actor);
}

void add_text(vtkRenderer* renderer, const std::string& text, double x, double y, int size, bool from_top = false) {
  vtkNew<vtkTextActor> actor;
  actor->SetInput(text.c_str());
  actor->GetPositionCoordinate()->SetCoordinateSystemToNormalizedViewport();
  actor->SetPosition(x, y);
  actor->GetTextProperty()->SetFontSize(size);
  actor->GetTextProperty()->SetColor(.1, .1, .1);
  if (from_top) actor->GetTextProperty()->SetVerticalJustificationToTop();
  renderer->AddViewProp(actor);
}

std::string forces(vtkUnstructuredGrid* lines) {
  const auto names = region_names(lines);
  auto* id = lines->GetCellData()->GetArray("region_id");
  auto* force = lines->GetCellData()->GetArray("force_N");
  std::map<std::string, double> of;
  for (vtkIdType k = 0; id != nullptr && force != nullptr && k < lines->GetNumberOfCells(); ++k)
    if (force->GetTuple1(k) != 0) of[names.at(static_cast<std::size_t>(id->GetTuple1(k)))] = force->GetTuple1(k);
  std::string text;
  for (const auto& [name, newtons] : of)
    text += (text.empty() ? "" : ", ") + name + " " + std::to_string(static_cast<long>(newtons + 0.5)) + " N";
  return text;
}

void draw_run(vtkRenderer* renderer, const fs::path& stem, const std::string& title, vtkLookupTable* colours) {
  renderer->SetBackground(1, 1, 1);
  const auto core = read(stem.string() + ".vtu"), lines = read(stem.string() + "_lines.vtu");
  add_pressure_in_kPa(core);
  const auto regions = region_names(core);
  for (std::size_t k = 0; k < regions.size(); ++k)
    add_region(renderer, core, static_cast<int>(k), regions[k] == "shoe" ? nullptr : colours);
  const auto names = region_names(lines);
  for (std::size_t k = 0; k < names.size(); ++k) add_lines(renderer, lines, static_cast<int>(k), names[k]);
  add_text(renderer, title, 0.03, 0.97, 17, true);
  add_text(renderer, forces(lines), 0.03, 0.915, 14, true);
  auto* camera = renderer->GetActiveCamera();  // one window for all frames and runs [mm]
  camera->ParallelProjectionOn();
  camera->SetFocalPoint(-70, 38, 0);
  camera->SetPosition(-70, 38, 500);
  camera->SetParallelScale(68);
  renderer->ResetCameraClippingRange();
}

std::vector<std::string> lines_of(const fs::path& file) {
  std::ifstream stream(file);
  std::vector<std::string> lines;
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  if (lines.empty()) throw std::runtime_error(file.string() + ": cannot be read or is empty");
  return lines;
}

/// Shares of stance by place, as stance.pvd says them.
std::map<std::string, std::string> shares(const fs::path& folder) {
  std::map<std::string, std::string> of;
  for (const std::string& line : lines_of(folder / "stance.pvd")) {
    const auto value = [&](const std::string& key) {
      const auto at = line.find(key + "=\"");
      if (at == std::string::npos) return std::string();
      const auto first = at + key.size() + 2;
      return line.substr(first, line.find('"', first) - first);
    };
    const std::string file = fs::path(value("file")).filename().string();
    if (!file.empty()) of[file.substr(0, file.find('_'))] = value("timestep");
  }
  return of;
}

void write_frame(vtkRenderWindow* window, const fs::path& file) {
  window->Render();
  vtkNew<vtkWindowToImageFilter> image;
  image->SetInput(window);
  image->ReadFrontBufferOff();
  vtkNew<vtkPNGWriter> writer;
  writer->SetFileName(file.c_str());
  writer->SetInputConnection(image->GetOutputPort());
  writer->Write();
}

void draw_place(const fs::path& folder, const std::string& place, const std::string& share,
                const std::vector<std::string>& runs, const fs::path& file) {
  vtkNew<vtkRenderWindow> window;
  window->SetOffScreenRendering(1);
  const auto columns = static_cast<int>(runs.size());
  window->SetSize(kWidth * columns, kHeight + kFoot);
  window->SetMultiSamples(8);
  const double foot = static_cast<double>(kFoot) / (kHeight + kFoot);
  const auto colours = pressure_colours();
  for (int run = 0; run < columns; ++run) {
    vtkNew<vtkRenderer> renderer;
    renderer->SetViewport(static_cast<double>(run) / columns, foot, (run + 1.0) / columns, 1);
    const fs::path stem = folder / "stance" / (place + "_" + std::to_string(run));
    if (!fs::exists(stem.string() + ".vtu")) {
      renderer->SetBackground(1, 1, 1);
      add_text(renderer, runs[static_cast<std::size_t>(run)] + ": no equilibrium here", 0.03, 0.9, 17);
    } else {
      draw_run(renderer, stem, runs[static_cast<std::size_t>(run)] + ", " + share + " % of stance", colours);
    }
    if (run + 1 == columns) {
      vtkNew<vtkScalarBarActor> bar;
      bar->SetLookupTable(colours);
      bar->SetTitle("pressure, kPa");
      bar->SetNumberOfLabels(4);
      bar->SetLabelFormat("%.0f");
      bar->UnconstrainedFontSizeOn();
      for (auto* text : {bar->GetTitleTextProperty(), bar->GetLabelTextProperty()}) {
        text->SetColor(.1, .1, .1);
        text->SetFontSize(14);
        text->ItalicOff();
        text->BoldOff();
        text->ShadowOff();
      }
      bar->GetPositionCoordinate()->SetValue(0.86, 0.42);
      bar->SetWidth(0.12);
      bar->SetHeight(0.45);
      renderer->AddViewProp(bar);
    }
    window->AddRenderer(renderer);
  }
  vtkNew<vtkRenderer> below;
  below->SetViewport(0, 0, 1, foot);
  below->SetBackground(1, 1, 1);
  std::string caution(hoofload::viz::caution_short);
  const auto half = caution.find(". Differences");
  if (half != std::string::npos) caution.replace(half + 1, 1, "\n");
  add_text(below, caution + "  Movement is drawn three times as large as it is.", 0.01, 0.9, 12, true);
  window->AddRenderer(below);
  write_frame(window, file);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) {
    std::cerr << "usage: hoofload_film FOLDER FRAMES   (FOLDER: as `hoofload film CASE --out FOLDER` left it)\n";
    return 2;
  }
  try {
    const fs::path folder = argv[1], frames = argv[2];
    const auto runs = lines_of(folder / "runs.txt");
    fs::create_directories(frames);
    int k = 0;
    for (const auto& [place, share] : shares(folder)) {
      char name[32];
      std::snprintf(name, sizeof name, "%03d.png", k++);
      draw_place(folder, place, share, runs, frames / name);
    }
    std::cout << k << " frames in " << frames.string() << '\n';
  } catch (const std::exception& error) {
    std::cerr << "hoofload_film: " << error.what() << '\n';
    return 5;
  }
  return 0;
}
