import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import './fonts.css'
import './tokens.css'
import './frame/base.css'
import { App } from './App.tsx'
import { MeRoom } from './people/me.tsx'
import { Router } from './router.tsx'
import { SettingsRoom } from './settings.tsx'
import { ShopRoom } from './shop.tsx'

const room = document.getElementById('room')
if (room !== null) {
  createRoot(room).render(
    <StrictMode>
      <Router>
        <SettingsRoom>
          <ShopRoom>
            <MeRoom>
              <App />
            </MeRoom>
          </ShopRoom>
        </SettingsRoom>
      </Router>
    </StrictMode>,
  )
}
