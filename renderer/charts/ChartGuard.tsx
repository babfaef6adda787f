import { Component, type ReactNode } from 'react';

export type ChartGuardProps = Readonly<{ fallback: ReactNode; children: ReactNode; resetKey: string }>;
type ChartGuardState = Readonly<{ failedFor: string | null }>;

/** A drawing that fails must not take the numbers with it: the table stands in until the next sweep. */
export class ChartGuard extends Component<ChartGuardProps, ChartGuardState> {
  override state: ChartGuardState = { failedFor: null };

  static getDerivedStateFromProps(props: ChartGuardProps, state: ChartGuardState): ChartGuardState | null {
    if (state.failedFor === 'now') return { failedFor: props.resetKey };
    if (state.failedFor !== null && state.failedFor !== props.resetKey) return { failedFor: null };
    return null;
  }

  static getDerivedStateFromError(): ChartGuardState {
    return { failedFor: 'now' };
  }

  override render(): ReactNode {
    return this.state.failedFor === null ? this.props.children : this.props.fallback;
  }
}
