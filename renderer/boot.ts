import './early';

void import('./main');
