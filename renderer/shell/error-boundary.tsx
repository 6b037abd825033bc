import { Component, type ReactNode } from 'react';
import { ErrorState } from '../components/layout/error-state.tsx';

/**
 * Keeps a screen that fails from taking the others with it; a move to another place, or
 * another try, clears it.
 */
export class ErrorBoundary extends Component<{ place: string; children: ReactNode }, { error: unknown }> {
  override state: { error: unknown } = { error: null };

  static getDerivedStateFromError(error: unknown) {
    return { error };
  }

  override componentDidUpdate(before: { place: string }) {
    if (before.place !== this.props.place && this.state.error !== null) this.setState({ error: null });
  }

  override render() {
    if (this.state.error === null) return this.props.children;
    return (
      <ErrorState
        title="This screen has failed"
        error={this.state.error}
        retry={() => this.setState({ error: null })}
      />
    );
  }
}
