import type { Block, Cell, Mark, Paper, Printable } from './document.ts';
import { escaped, pictureSvg } from './html-picture.ts';
import { type ReportFonts, reportStyle } from './html-style.ts';
import { markShapes } from './marks.ts';

const verdictClass = { pass: 'good', fail: 'bad', undecided: '' } as const;

function markSvg(mark: Mark): string {
  const picture = { widthPt: 20, heightPt: 20, shapes: markShapes(mark) };
  return pictureSvg(picture, '', undefined).replace(
    /<svg viewBox="([^"]*)" role="img" aria-label="">/,
    '<svg class="mark" viewBox="$1" aria-hidden="true">',
  );
}

function cellHtml({ text, bold, soft, mark }: Cell): string {
  const inner = bold === true ? `<b>${escaped(text)}</b>` : escaped(text);
  const marked =
    mark === undefined
      ? inner
      : `${markSvg(mark)}<span class="word ${verdictClass[mark.verdict]}">${inner}</span>`;
  return soft === true ? `<span class="soft">${marked}</span>` : marked;
}

function blockHtml(block: Block): string {
  switch (block.block) {
    case 'heading':
      return `<h${block.level}>${escaped(block.text)}</h${block.level}>`;
    case 'finding':
      return `<div class="finding"><p class="lead">${escaped(block.lead)}</p><strong>${escaped(block.text)}</strong>${
        block.mark === null
          ? ''
          : `<p class="word ${verdictClass[block.mark.verdict]}">${markSvg(block.mark)}${escaped(block.word)}</p>`
      }</div>`;
    case 'paragraph':
      return `<p${block.soft === true ? ' class="soft"' : ''}>${escaped(block.text)}</p>`;
    case 'list':
      return `<ul>${block.items.map((item) => `<li>${escaped(item)}</li>`).join('')}</ul>`;
    case 'facts':
      return `<dl>${block.facts
        .map(
          ({ name, value, note }) =>
            `<div><dt>${escaped(name)}</dt><dd>${escaped(value)}${note === undefined ? '' : `<small>${escaped(note)}</small>`}</dd></div>`,
        )
        .join('')}</dl>`;
    case 'table': {
      if (block.rows.length === 0)
        return `<p class="soft">${escaped(`${block.caption}: ${block.empty ?? 'none.'}`)}</p>`;
      const ends = block.columns.map(({ align }) => (align === 'end' ? ' class="end"' : ''));
      const head = block.columns.map(({ title }, i) => `<th scope="col"${ends[i]}>${escaped(title)}</th>`);
      const rows = block.rows.map(
        (row) => `<tr>${row.map((cell, i) => `<td${ends[i]}>${cellHtml(cell)}</td>`).join('')}</tr>`,
      );
      return `<table${block.set === undefined ? '' : ` class="${block.set}"`}><caption>${escaped(block.caption)}</caption><thead><tr>${head.join('')}</tr></thead><tbody>${rows.join('')}</tbody></table>`;
    }
    case 'figure':
      return `<figure>${pictureSvg(block.picture, block.words)}<figcaption>${escaped(block.caption)}</figcaption></figure>`;
    case 'caution':
      return `<section class="caution"><p><b>${escaped(block.title)}</b></p>${block.items
        .map((item) => `<p>${escaped(item)}</p>`)
        .join('')}<p><b>${escaped(block.last)}</b></p></section>`;
    case 'signatures':
      return `<div class="sign">${block.names.map((name) => `<div>${escaped(name)}, date, signature</div>`).join('')}</div>`;
    case 'page':
      return '<div class="page"></div>';
  }
}

function bodyOf(printable: Printable): Readonly<{ body: string; foot: string }> {
  switch (printable.kind) {
    case 'pages': {
      const { masthead, blocks, foot } = printable;
      const aside = masthead.aside.map((line) => `<p>${escaped(line)}</p>`).join('');
      return {
        foot: foot.join('\n'),
        body: `<header><div><p class="over">${escaped(masthead.over)}</p><h1>${escaped(masthead.title)}</h1></div><div class="aside">${aside}</div></header>
<main>
${blocks.map(blockHtml).join('\n')}
</main>
<footer class="foot">${foot.map((line) => escaped(line)).join('<br>')}</footer>`,
      };
    }
    case 'labels': {
      const one = pictureSvg(printable.picture, printable.words, (printable.picture.widthPt / 72) * 25.4);
      return { foot: '', body: `<main class="labels">\n${`${one}\n`.repeat(printable.count)}</main>` };
    }
  }
}

/**
 * A report as one page of HTML that needs nothing else: no script, no outside resource, type and pictures inside.
 * @param printable  the same document that the PDF is drawn from
 * @param paper      what it prints on
 * @param fonts      its type, as data
 * @returns  the whole file; the same bytes for the same input
 * @source   HTML Living Standard; CSP Level 3: the policy in the page itself forbids scripts and anything from outside
 */
export function reportHtml(printable: Printable, paper: Paper, fonts: ReportFonts): string {
  const { body, foot } = bodyOf(printable);
  return `<!doctype html>
<html lang="${escaped(printable.language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; font-src data:">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="description" content="${escaped(printable.subject)}">
<title>${escaped(printable.title)}</title>
<style>
${reportStyle(paper, fonts, foot)}
</style>
</head>
<body>
${body}
</body>
</html>
`;
}
