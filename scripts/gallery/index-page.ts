import { allScenes, fileOf, SCREENS } from './scenes.ts'

/** The page that shows all pictures together, a row for each screen, with what went wrong on it in words. */
export function indexPage(problems: ReadonlyMap<string, readonly string[]>): string {
  const rows = SCREENS.map((screen) => {
    const scenes = allScenes().filter((each) => each.screen === screen)
    const pictures = scenes.map((scene) => picture(fileOf(scene), `${scene.size.name}, ${scene.theme}`))
    const told = scenes.flatMap((scene) => problems.get(fileOf(scene)) ?? []).map((text) => `<li>${escaped(text)}</li>`)
    return `<section><h2>${screen}</h2>${told.length > 0 ? `<ul>${told.join('')}</ul>` : ''}<div>${pictures.join('')}</div></section>`
  })
  return `<!doctype html><html lang="en"><meta charset="utf-8"><title>Rillmark, every screen</title><style>${STYLE}</style><h1>Every screen</h1>${rows.join('\n')}</html>\n`
}

const STYLE = [
  'body{font:15px/1.5 "IBM Plex Sans",system-ui,sans-serif;margin:24px;background:#f4f3ef;color:#1c1f22}',
  'div{display:flex;gap:16px;align-items:start;overflow-x:auto}figure{margin:0;flex:none}',
  'img{height:420px;border:1px solid #c9c6bd;display:block}li{color:#8a2a12}',
].join('')

function picture(file: string, caption: string): string {
  return `<figure><a href="${file}"><img src="${file}" alt="${caption}" loading="lazy"></a><figcaption>${caption}</figcaption></figure>`
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;')
}
