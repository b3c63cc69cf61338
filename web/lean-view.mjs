// Takes out of view.wasm what no page needs: Dear ImGui carries a font of its own, as text, which
// stays in where a program asks for no font. Ours always asks for its own (web/view_font.cpp).
import { moduleOf, sectionsOf, segmentsOf } from './wasm-file.mjs';

/** How that font begins, and how long it is (imgui_draw.cpp, proggy_clean_ttf_compressed_data_base85). */
const FONT = { start: "7])#######hV0qs'/###[),##/l:$#Q6>##5[n42>c-TH`->>#/e>11NNV=Bv(*:.F?uu#", bytes: 11980 };

/** @param {Buffer} wasm As it was linked. Throws where that font is not in it, or is another. */
export function leanView(wasm) {
  const sections = sectionsOf(wasm);
  const [place, ...others] = segmentsOf(sections).filter(({ bytes }) => bytes.includes(FONT.start));
  if (!place || others.length) throw new Error('view.wasm has not the font that is left out');
  const at = place.bytes.indexOf(FONT.start);
  // The zero at its end may be no longer in the file.
  const end = `${place.bytes.subarray(at).toString('latin1')}\0`.indexOf('\0');
  if (end !== FONT.bytes) throw new Error(`the font that is left out of view.wasm has ${end} bytes`);
  place.bytes.fill(0, at, at + FONT.bytes);
  return moduleOf(sections);
}
