import { figure } from '../format';

/** `40 s`, `4.6 min`, `6 h 40 min` */
export function minutesText(minutes: number): string {
  if (minutes > 0 && minutes < 0.95) return `${figure(minutes * 60)}\u2009s`;
  if (minutes < 10) return `${figure(minutes, Number.isInteger(minutes) ? 0 : 1)} min`;
  const whole = Math.round(minutes);
  if (whole < 60) return `${whole} min`;
  return whole % 60 === 0 ? `${figure(whole / 60)} h` : `${figure(Math.floor(whole / 60))} h ${whole % 60} min`;
}
