import type { ReactNode } from 'react';
import { Button, type ButtonProps } from 'react-aria-components';

export type PressButtonProps = Omit<ButtonProps, 'className' | 'children'> &
  Readonly<{
    /** `do` is the one thing to do next; there is at most one on a screen. */
    rank?: 'do' | 'plain' | 'quiet';
    size?: 'visit' | 'usual';
    children: ReactNode;
  }>;

export const PressButton = ({ rank = 'plain', size = 'usual', children, ...rest }: PressButtonProps) => (
  <Button {...rest} className={`button button--${rank} button--${size}`}>
    {children}
  </Button>
);
