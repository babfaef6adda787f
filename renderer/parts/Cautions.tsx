/** Said once at the start of a visit, and not on every screen. */
export const Cautions = () => (
  <ul className="cautions">
    <li>
      <strong>Line power.</strong> 60 or 90 V AC stands on seizure screws, test points and module pins.
    </li>
    <li>
      <strong>Aloft and on the road.</strong> Height, traffic and power conductors are nearer than they look.
    </li>
    <li>
      <strong>Optical nodes.</strong> Laser light there is invisible. Never look into a fibre or a port.
    </li>
    <li>
      <strong>Open housings</strong> leak RF into aeronautical bands. Close them as soon as you can.
    </li>
    <li className="cautions__last">
      The workbench advises on levels only. Your operator’s procedures, the local electrical code and licensed
      practice rule.
    </li>
  </ul>
);
