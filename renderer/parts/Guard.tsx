import { Component, type ReactNode } from 'react';

export type GuardProps = Readonly<{
  /** What stands in, or what makes it of the fault's own words. */
  fallback: ReactNode | ((fault: string) => ReactNode);
  /** Another one is another try. */
  resetKey: string;
  children: ReactNode;
}>;
type GuardState = Readonly<{ fault: string | null; failedFor: string | null }>;

const FINE: GuardState = { fault: null, failedFor: null };

/** What can't be drawn must not take the rest with it: something else stands in until there is something else to draw. */
export class Guard extends Component<GuardProps, GuardState> {
  override state: GuardState = FINE;

  static getDerivedStateFromProps({ resetKey }: GuardProps, state: GuardState): GuardState | null {
    if (state.fault === null || state.failedFor === resetKey) return null;
    return state.failedFor === null ? { ...state, failedFor: resetKey } : FINE;
  }

  static getDerivedStateFromError(fault: unknown): GuardState {
    return { fault: fault instanceof Error ? fault.message : String(fault), failedFor: null };
  }

  override render(): ReactNode {
    const { fault } = this.state;
    const { fallback, children } = this.props;
    if (fault === null) return children;
    return typeof fallback === 'function' ? fallback(fault) : fallback;
  }
}
