# Writes OUT, which defines build_fingerprint(): a hash of the C++ source below model/ and daemon/
# that numbers are derived by.
file(GLOB_RECURSE files RELATIVE ${ROOT} ${ROOT}/model/*.?pp ${ROOT}/daemon/text/*.?pp
     ${ROOT}/daemon/farm/*.?pp ${ROOT}/daemon/readings/*.?pp ${ROOT}/daemon/store/*.?pp
     ${ROOT}/daemon/engine/*.?pp)
list(SORT files)
set(hashes "")
foreach(file ${files})
  file(SHA256 ${ROOT}/${file} hash)
  string(APPEND hashes "${file} ${hash}\n")
endforeach()
string(SHA256 whole "${hashes}")
string(SUBSTRING ${whole} 0 16 short)
file(WRITE ${OUT} "#include \"daemon/engine/fields/build_fingerprint.hpp\"\n\n"
     "std::string_view gley::daemon::build_fingerprint() {\n  return \"${short}\";\n}\n")
