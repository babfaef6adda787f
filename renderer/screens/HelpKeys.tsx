import { keyGroups } from '../help/keys.ts';

/** The sheet of keys. */
export const HelpKeys = () => (
  <div className="key-sheet">
    {keyGroups.map(({ name, rows }) => (
      <table key={name} className="key-sheet__group">
        <caption>{name}</caption>
        <tbody>
          {rows.map(({ keys, does }) => (
            <tr key={`${keys.join()} ${does}`}>
              <th scope="row">
                {keys.map((key, i) => (
                  <span key={key}>
                    {i > 0 && ' or '}
                    <kbd>{key}</kbd>
                  </span>
                ))}
              </th>
              <td>{does}</td>
            </tr>
          ))}
        </tbody>
      </table>
    ))}
    <p className="quiet">
      On a Mac, Ctrl is Command. Nothing here needs a mouse, and nothing needs to hover.
    </p>
  </div>
);
