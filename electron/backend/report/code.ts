import qrcode from 'qrcode-generator';
import type { CodeModules } from '../../../core/report/label.ts';

/** A text as a QR code's modules. Error correction M: a label in a lid gets dirty. The smallest size that holds the text. */
export function codeOf(text: string): CodeModules {
  const code = qrcode(0, 'M');
  code.addData(text, 'Byte');
  code.make();
  const size = code.getModuleCount();
  return Array.from({ length: size }, (_, j) => Array.from({ length: size }, (_, i) => code.isDark(j, i)));
}
