// Writes the mesh of mesh::peer_section for bench_peer, which reads it as the other programs read theirs.
// bench_peer_mesh 2k|5k|20k|80k whole|split FILE
#include <iostream>
#include <map>

#include "mesh/peer_section.hpp"
#include "tests/reference/mesh_file.hpp"

int main(int argc, char** argv) {
  using hoofload::mesh::PeerSize;
  const std::map<std::string, PeerSize> sizes{
      {"2k", PeerSize::k2}, {"5k", PeerSize::k5}, {"20k", PeerSize::k20}, {"80k", PeerSize::k80}};
  if (argc != 4 || sizes.count(argv[1]) == 0) {
    std::cerr << "usage: bench_peer_mesh 2k|5k|20k|80k whole|split FILE\n";
    return 2;
  }
  hoofload::reference::write_mesh(hoofload::mesh::peer_section(sizes.at(argv[1]), argv[2] == std::string("split")),
                                  argv[3]);
}
